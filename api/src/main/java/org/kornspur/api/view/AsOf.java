package org.kornspur.api.view;

import java.time.Instant;
import java.util.Map;
import org.eclipse.microprofile.openapi.annotations.media.Schema;

/** How much was known when the answer was given. */
@Schema(description = "How much was known when the answer was given")
public record AsOf(
    Instant answeredAt,
    @Schema(
            description =
                "Records that had come in and were not processed yet; null where that could not be"
                    + " told, and to who does not see everything: it counts what others do",
            examples = "0")
        Long recordsWaiting,
    @Schema(description = "The same by topic; empty where it is null")
        Map<String, Long> waitingByTopic,
    @Schema(
            description =
                "How many of these a transaction holds back that another program began on the facts"
                    + " topic and has not ended; null likewise",
            examples = "0")
        Long heldByOpenTransaction,
    @Schema(
            description = "Whether everything that had come in is in this answer",
            examples = "true")
        boolean complete,
    @Schema(examples = "Everything that had come in is in this answer.") String note) {

  private static final String ALL_IN = "Everything that had come in is in this answer.";
  private static final String NOT_ALL_IN =
      "Not everything that had come in may be in this answer yet; it may change. Ask again shortly.";

  /**
   * With the lag of every topic that the answer rests on.
   *
   * @param heldBack how many of these an open transaction holds back
   */
  public static AsOf waiting(Instant answeredAt, Map<String, Long> waitingByTopic, long heldBack) {
    long waiting = waitingByTopic.values().stream().mapToLong(Long::longValue).sum();
    boolean complete = waiting == 0 && heldBack == 0;
    return new AsOf(
        answeredAt,
        waiting,
        waitingByTopic,
        heldBack,
        complete,
        complete ? ALL_IN : notAllIn(waiting, heldBack));
  }

  private static String notAllIn(long waiting, long heldBack) {
    return waiting
        + " records had come in and were not processed yet; this answer may change. "
        + (heldBack == 0
            ? "Ask again shortly."
            : heldBack
                + " of them wait for a transaction on the facts topic to end. Have the program that"
                + " writes there commit or abort it; the broker aborts it after its timeout.");
  }

  /** For who does not see everything: how much of others' had come in is not theirs to know. */
  public AsOf withoutNumbers() {
    return new AsOf(answeredAt, null, Map.of(), null, complete, complete ? ALL_IN : NOT_ALL_IN);
  }

  /** Where the lag could not be told. */
  public static AsOf unknown(Instant answeredAt, String why) {
    return new AsOf(
        answeredAt,
        null,
        Map.of(),
        null,
        false,
        "How much had come in and was not processed yet could not be told: " + why + ".");
  }
}
