package org.kornspur.api.problem;

import org.kornspur.ingest.problem.Given;

/** Why a plan of the years ahead is not there, or not taken. */
public sealed interface PlanDetail extends Detail {
  record NoPlan(Given plan) implements PlanDetail {}

  /** Somebody saved another version in between. */
  record Changed(int latest, int basedOn) implements PlanDetail {}

  /** Three quantities that must not fall from the first to the last. */
  record NotInOrder(String field, double low, double likely, double high) implements PlanDetail {}
}
