package org.kornspur.processors.plan;

import org.kornspur.ingest.statement.Statement;

/** Why nothing can be planned from what was given. */
public sealed interface PlanRefusal extends Statement {

  /** A hybrid is asked for of which no declaration is on record. */
  record UnknownHybrid(String hybridId) implements PlanRefusal {}

  /** The declaration of a hybrid does not say what it is crossed from. */
  record NoCrossOfHybrid(String hybridId) implements PlanRefusal {}

  /** A crossing names a component that the hybrid does not declare. */
  record UndeclaredComponent(String hybridId, String seedId) implements PlanRefusal {}

  /** Two hybrids use one component and tell of it differently. */
  record ToldDifferently(String seedId, String hybridId, String otherHybridId)
      implements PlanRefusal {}

  /** By its crossings seed goes back to itself over other seed. */
  record Circle(String seedId) implements PlanRefusal {}

  /** An input lies outside what it can be; the unit is part of its name. */
  record InputOutside(String field, double value, double least, double most)
      implements PlanRefusal {}

  /** A year of harvest lies outside the plan. */
  record YearOutside(String field, int year, int first, int last) implements PlanRefusal {}

  /** The same hybrid and year, or seed and year, is given twice. */
  record GivenTwice(String field, String id, int year) implements PlanRefusal {}

  /** A pinned area names seed that is not part of the plan. */
  record UnknownSeed(String field, String seedId) implements PlanRefusal {}
}
