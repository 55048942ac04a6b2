package org.kornspur.ingest.problem;

import org.kornspur.ingest.registry.UnknownSchema;
import org.kornspur.ingest.wire.UnknownRecordType;

/** What a record of the topic of facts must be. */
public sealed interface RecordProblem extends IntakeReason {

  /** Most characters of what the program says of a fault. */
  int LONGEST_DETAIL = 400;

  record TooLarge(int most) implements RecordProblem {}

  /** Nobody thought of what is wrong with it, so the words are those of the program. */
  record NotProcessed(String fault) implements RecordProblem {}

  record NotWireFormat(String detail) implements RecordProblem {}

  record OtherRegistry(String detail) implements RecordProblem {}

  record UnknownType(String detail) implements RecordProblem {}

  record NoFactType() implements RecordProblem {}

  record OtherKey(String factId) implements RecordProblem {}

  /** Another fact has this id. */
  record OtherContent() implements RecordProblem {}

  /**
   * Why a record is no fact.
   *
   * @param fault what reading it threw; its words are those of the program
   */
  static RecordProblem unreadable(RuntimeException fault) {
    String detail = VisibleText.of(fault.getMessage(), false, LONGEST_DETAIL).text();
    if (fault instanceof UnknownSchema) {
      return new OtherRegistry(detail);
    }
    return fault instanceof UnknownRecordType ? new UnknownType(detail) : new NotWireFormat(detail);
  }
}
