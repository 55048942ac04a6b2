package org.kornspur.processors.finding;

import org.kornspur.contract.PostControlMethod;
import org.kornspur.ingest.statement.Value.Amount;
import org.kornspur.processors.standards.Quantity;

/** Plants grown or tested after the fact. */
public sealed interface PostControlFinding extends Finding {
  record IdentityConfirmed(PostControlMethod method, String test) implements PostControlFinding {}

  record IdentityDenied(PostControlMethod method, String test) implements PostControlFinding {}

  record Counted(PostControlMethod method, String test, Quantity what, int found, int plants)
      implements PostControlFinding {}

  record RejectedFrom(int reject, Amount risk) implements PostControlFinding {}

  /** Held against the share itself. */
  record Share(Amount percent) implements PostControlFinding {}

  /** Hybrid seed, less than what may go unstated. */
  record ShareOfHybrids(Amount percent) implements PostControlFinding {}

  record Results(int results) implements PostControlFinding {}
}
