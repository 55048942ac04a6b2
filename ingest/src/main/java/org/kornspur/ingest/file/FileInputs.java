package org.kornspur.ingest.file;

import java.io.IOException;
import java.util.List;
import org.kornspur.ingest.intake.Problem;

/** Takes what a file holds. */
interface FileInputs {
  /**
   * Takes an input.
   *
   * @return all that is wrong with it; empty where it is taken
   */
  List<Problem> take(FileInput input);

  /** Takes the refused rows of a table that was read to its end. */
  void takeRefused(DetectedTable form, List<RefusedRow> rows) throws IOException;
}
