package org.kornspur.api.problem;

import org.kornspur.ingest.contract.Subject;

/** Why an act was not signed. */
public sealed interface ActDetail extends Detail {
  record BrokenContract() implements ActDetail {}

  record OtherSeal(String seen, Subject subject, String now) implements ActDetail {}

  /** This site has each release signed by itself. */
  record OnlyOneAtOnce() implements ActDetail {}

  /**
   * It does not follow on the state of the crop or lot.
   *
   * @param why in the words that were put on record
   */
  record OutOfSequence(String why) implements ActDetail {}
}
