package org.kornspur.api.problem;

import org.kornspur.ingest.problem.Given;

/** Why a label, a paper or a history is not made. */
public sealed interface ExportDetail extends Detail {
  record SeedUnknown(Given lot) implements ExportDetail {}

  record NoLabelRules(Given lot, String rulebook) implements ExportDetail {}

  /**
   * A picture without a warning for a lot that may not be sold.
   *
   * @param why in the words of the label
   */
  record NoBarePicture(String why) implements ExportDetail {}

  record PaperTooLong(long characters, long most) implements ExportDetail {}

  record TooManyAncestors(int most) implements ExportDetail {}
}
