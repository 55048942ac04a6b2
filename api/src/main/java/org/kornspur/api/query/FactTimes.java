package org.kornspur.api.query;

import jakarta.ws.rs.QueryParam;
import java.time.Instant;
import java.util.Optional;
import org.eclipse.microprofile.openapi.annotations.parameters.Parameter;
import org.kornspur.api.http.Parameters;
import org.kornspur.processors.dossier.Entry;

/**
 * Which facts of a subject are shown: by the time when they happened, and by that when they were
 * recorded. Both bounds are ISO 8601; from is included, to is not. A fact and its correction are
 * each looked at for themselves, so both stay in reach.
 *
 * <p>Source: 21 CFR 11.10(e), record changes shall not obscure previously recorded information.
 */
public final class FactTimes {

  @Parameter(
      description = "Facts that happened at this time or later",
      example = "2024-06-01T00:00:00Z")
  @QueryParam("happenedFrom")
  String happenedFrom;

  @Parameter(description = "Facts that happened before this time")
  @QueryParam("happenedTo")
  String happenedTo;

  @Parameter(description = "Facts that were recorded at this time or later")
  @QueryParam("recordedFrom")
  String recordedFrom;

  @Parameter(description = "Facts that were recorded before this time")
  @QueryParam("recordedTo")
  String recordedTo;

  /** What was asked for; an empty bound does not restrict. */
  public record Range(
      Optional<Instant> happenedFrom,
      Optional<Instant> happenedTo,
      Optional<Instant> recordedFrom,
      Optional<Instant> recordedTo) {

    /** At whatever time. */
    public static final Range ALL =
        new Range(Optional.empty(), Optional.empty(), Optional.empty(), Optional.empty());

    boolean holds(Entry entry) {
      return within(entry.header().getHappenedAt(), happenedFrom, happenedTo)
          && within(entry.header().getRecordedAt(), recordedFrom, recordedTo);
    }

    private static boolean within(Instant time, Optional<Instant> from, Optional<Instant> to) {
      return from.map(first -> !time.isBefore(first)).orElse(true)
          && to.map(time::isBefore).orElse(true);
    }
  }

  public Range range() {
    Parameters parameters = new Parameters();
    Range range =
        new Range(
            parameters.instant("happenedFrom", happenedFrom),
            parameters.instant("happenedTo", happenedTo),
            parameters.instant("recordedFrom", recordedFrom),
            parameters.instant("recordedTo", recordedTo));
    parameters.check();
    return range;
  }
}
