package org.kornspur.processors.finding;

import java.util.List;
import java.util.Optional;
import org.kornspur.ingest.statement.Coded;
import org.kornspur.ingest.statement.Value.Fact;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.processors.verdict.Verdict;

/**
 * That a part of the judging broke on a dossier: something was thrown, or a value came out that is
 * no number. What could not be judged is owed, never met.
 *
 * @param gate gate that could not be judged; {@link Gate#ORIGIN} for what is no gate
 * @param aspect key of the gate's aspect, or of the part of the judging that broke
 * @param about the same as it is shown; empty where the gate as a whole broke
 * @param factIds facts that it most likely rests on, in order
 * @param cause what was thrown
 */
public record Fault(
    Gate gate, String aspect, Optional<Coded> about, List<String> factIds, Throwable cause) {
  private static final int LONGEST_CAUSE = 300;

  /** The verdict that stands in place of the one that could not be had. */
  public Verdict.Owed verdict() {
    return new Verdict.Owed(
        gate,
        aspect,
        about,
        List.of(
            (factIds.isEmpty()
                    ? new Evidence.ReportOfFault()
                    : new Evidence.Correction(Fact.each(factIds)))
                .coded()),
        Optional.empty(),
        factIds,
        List.of(new BasisFinding.NotJudged(kind(), message()).coded()),
        List.of(new Advice.CorrectOrReport().coded()));
  }

  /** The fault in words that are the same each time that it comes about; for the log. */
  public String words() {
    return message().map(message -> kind() + ": " + message).orElse(kind());
  }

  private String kind() {
    return cause.getClass().getSimpleName();
  }

  /**
   * What our own checks say; of all else the virtual machine leaves the words out after a while.
   */
  private Optional<String> message() {
    boolean ownWords =
        cause.getMessage() != null
            && (cause instanceof IllegalArgumentException
                || cause instanceof IllegalStateException);
    return ownWords ? Optional.of(shortened(cause.getMessage())) : Optional.empty();
  }

  private static String shortened(String message) {
    return message.length() > LONGEST_CAUSE ? message.substring(0, LONGEST_CAUSE) + "…" : message;
  }
}
