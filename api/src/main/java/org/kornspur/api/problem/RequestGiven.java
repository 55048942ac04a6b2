package org.kornspur.api.problem;

import org.kornspur.ingest.problem.Given;
import org.kornspur.ingest.statement.Statement;

/** What a request gave where something else is expected, beside what facts give. */
public sealed interface RequestGiven extends Statement {
  record MoreBytes(int over) implements RequestGiven {}

  record UnfinishedBody(long bytes) implements RequestGiven {}

  record ManyFacts(int over) implements RequestGiven {}

  record NoFact() implements RequestGiven {}

  record UnknownField() implements RequestGiven {}

  record OtherShape() implements RequestGiven {}

  record FirstBytes(int kept, long of) implements RequestGiven {}

  record Characters(int count) implements RequestGiven {}

  record Events(int count) implements RequestGiven {}

  record LotsAndMasses(int lots, int masses) implements RequestGiven {}

  record MassOfLot(Given mass, Given lot) implements RequestGiven {}

  /** A line of a release sheet. */
  record SheetLine(String line) implements RequestGiven {}

  record NotShown() implements RequestGiven {}

  record LogInBefore(long seconds) implements RequestGiven {}

  record NoClaim(String claim) implements RequestGiven {}
}
