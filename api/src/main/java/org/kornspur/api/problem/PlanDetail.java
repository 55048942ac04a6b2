package org.kornspur.api.problem;

import org.kornspur.ingest.problem.Given;

/** Why a plan of the years ahead is not there, or not taken. */
public sealed interface PlanDetail extends Detail {
  record NoPlan(Given plan) implements PlanDetail {}

  /** Somebody saved another version in between. */
  record Changed(int latest, int basedOn) implements PlanDetail {}

  /** Three quantities that must not fall from the first to the last. */
  record NotInOrder(String field, double low, double likely, double high) implements PlanDetail {}

  /** The plan has no such harvest to sow for. */
  record NoHarvest(int year, int first, int last) implements PlanDetail {}

  /** A crop is put on a field that no crop was declared on. */
  record NoField(String seedId, String enterpriseId, String fieldId) implements PlanDetail {}

  record NoRulebook(String rulebookId) implements PlanDetail {}

  /** So many plans cannot stand side by side. */
  record ToCompare(int given, int least, int most) implements PlanDetail {}

  /** A table of demand has no column of this meaning. */
  record NoColumn(String column) implements PlanDetail {}

  /** A cell of a table of demand cannot be read. */
  record UnreadableCell(int row, String column, Given value) implements PlanDetail {}
}
