package org.kornspur.processors.verdict;

import java.util.List;
import java.util.Optional;

/**
 * That a part of the judging broke on a dossier: something was thrown, or a value came out that is
 * no number. What could not be judged is owed, never met.
 *
 * @param gate gate that could not be judged; {@link Gate#ORIGIN} for what is no gate
 * @param aspect aspect of the gate, or the part of the judging that broke
 * @param factIds facts that it most likely rests on, in order
 * @param cause what was thrown
 */
public record Fault(Gate gate, String aspect, List<String> factIds, Throwable cause) {
  private static final int LONGEST_CAUSE = 300;

  /** The verdict that stands in place of the one that could not be had. */
  public Verdict.Owed verdict() {
    return new Verdict.Owed(
        gate,
        aspect,
        factIds.isEmpty() ? "a report of the fault" : "a correction of " + facts(),
        Optional.empty(),
        factIds,
        "%s%s could not be judged: %s. It most likely rests on %s. Correct the fact that is wrong; if none is, report this fault to those who look after the program."
            .formatted(
                gate,
                aspect.isEmpty() ? "" : " (" + aspect + ")",
                words(),
                factIds.isEmpty() ? "no single fact" : facts()));
  }

  /**
   * The fault in words that are the same each time that it comes about: what our own checks say,
   * and of all else its kind alone, for the virtual machine leaves the words out after a while.
   */
  public String words() {
    boolean ownWords =
        cause.getMessage() != null
            && (cause instanceof IllegalArgumentException
                || cause instanceof IllegalStateException);
    String kind = cause.getClass().getSimpleName();
    if (!ownWords) {
      return kind;
    }
    String message = cause.getMessage().replaceFirst("\\.$", "");
    return kind
        + ": "
        + (message.length() > LONGEST_CAUSE ? message.substring(0, LONGEST_CAUSE) + "…" : message);
  }

  private String facts() {
    return (factIds.size() == 1 ? "fact " : "one of the facts ") + String.join(", ", factIds);
  }
}
