package org.kornspur.api.problem;

import java.util.List;
import java.util.Optional;
import org.kornspur.contract.QuarantineState;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.problem.Given;

/** What is not on record here, or not as the request takes it to be. */
public sealed interface RecordDetail extends Detail {

  /** Where else to look. */
  enum Hint {
    NONE,
    LABEL_NUMBERS,
    OTHER_KIND,
    LIST,
    SEND_FACTS
  }

  /** A subject that no fact names, or that the caller does not see. */
  record Unknown(Subject.Kind kind, Given id, Hint hint) implements RecordDetail {}

  record NoRulebook(Given rulebook, List<String> rulebooks) implements RecordDetail {}

  record NoRefusedInput(Given entry) implements RecordDetail {}

  /**
   * Refused input that somebody decided on.
   *
   * @param as fact that it was taken in as; empty where it was discarded
   */
  record Settled(QuarantineState state, Optional<String> as) implements RecordDetail {}

  record NoCrop(Given crop) implements RecordDetail {}

  record NoSample(Given sample, Given lot) implements RecordDetail {}

  record NoResult(Given fact) implements RecordDetail {}

  record ReplacedResult(Given fact, Given by) implements RecordDetail {}

  record NoFactToMend(Given fact) implements RecordDetail {}

  record NoCaptureJob(Given job) implements RecordDetail {}

  record NoEvent(Given event) implements RecordDetail {}

  record NoLotOfGtin(Given lot, Given gtin) implements RecordDetail {}

  record NoGtin(Given digits) implements RecordDetail {}
}
