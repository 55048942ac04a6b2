package org.kornspur.api.query.view;

import java.time.Instant;
import java.util.Map;
import org.eclipse.microprofile.openapi.annotations.media.Schema;
import org.kornspur.api.text.ReaderWords;

@Schema(description = "How much was known when the answer was given")
public record AsOf(
    Instant answeredAt,
    @Schema(
            nullable = true,
            description =
                "Records that had come in and were not processed yet; null where that could not be"
                    + " told, and to who does not see everything: it counts what others do",
            examples = "0")
        Long recordsWaiting,
    @Schema(description = "The same by topic; empty where it is null")
        Map<String, Long> waitingByTopic,
    @Schema(
            nullable = true,
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

  /**
   * With the lag of every topic that the answer rests on.
   *
   * @param heldBack how many of these an open transaction holds back
   */
  public static AsOf waiting(
      Instant answeredAt, Map<String, Long> waitingByTopic, long heldBack, ReaderWords words) {
    long waiting = waitingByTopic.values().stream().mapToLong(Long::longValue).sum();
    AsOfNote note =
        heldBack > 0
            ? new AsOfNote.HeldBack(waiting, heldBack)
            : waiting > 0 ? new AsOfNote.Waiting(waiting) : new AsOfNote.AllIn();
    return new AsOf(
        answeredAt,
        waiting,
        waitingByTopic,
        heldBack,
        note instanceof AsOfNote.AllIn,
        words.plain(note));
  }

  /** For who does not see everything: how much of others' had come in is not theirs to know. */
  public AsOf withoutNumbers(ReaderWords words) {
    return new AsOf(
        answeredAt,
        null,
        Map.of(),
        null,
        complete,
        words.plain(complete ? new AsOfNote.AllIn() : new AsOfNote.NotAllIn()));
  }

  /** Where the lag could not be told. */
  public static AsOf unknown(Instant answeredAt, ReaderWords words) {
    return new AsOf(answeredAt, null, Map.of(), null, false, words.plain(new AsOfNote.Unknown()));
  }
}
