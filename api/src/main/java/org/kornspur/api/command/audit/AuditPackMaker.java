package org.kornspur.api.command.audit;

import java.io.IOException;
import java.io.OutputStream;

/** Makes the archive of a pack. */
public interface AuditPackMaker {

  /** What is being made. */
  enum Part {
    SHEETS,
    APPENDIX,
    PROOFS,
    LOG
  }

  /** Is told how far it is. */
  interface Progress {

    /**
     * @param done pieces of the part that are done
     * @param all pieces that it has
     */
    void reached(Part part, int done, int all);
  }

  /**
   * Writes the archive, as who asked for it may see the data.
   *
   * @throws IOException if the stream does not take it
   * @throws InterruptedException if the program ends meanwhile
   */
  void make(AuditOrder order, OutputStream archive, Progress progress)
      throws IOException, InterruptedException;
}
