package org.kornspur.api.readmodel;

import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import org.kornspur.contract.CauseNote;

/** What persons did about each cause, in the order of time. Nothing is ever taken out. */
public final class CauseNotes {
  private static final Comparator<CauseNote> BY_TIME =
      Comparator.comparing(CauseNote::getWrittenAt).thenComparing(CauseNote::getNoteId);

  private final Map<String, SortedMap<CauseNote, CauseNote>> byCause = new HashMap<>();

  public synchronized void put(CauseNote note) {
    byCause
        .computeIfAbsent(note.getCause(), cause -> new TreeMap<>(BY_TIME))
        .putIfAbsent(note, note);
  }

  synchronized void clear() {
    byCause.clear();
  }

  /** What was done about a cause, the first first. */
  public synchronized List<CauseNote> of(CauseKey cause) {
    return List.copyOf(byCause.getOrDefault(cause.text(), new TreeMap<>(BY_TIME)).keySet());
  }

  /** That somebody took a cause over, and did not hand it back, nor did anybody else since. */
  public Optional<CauseNote> takenOver(CauseKey cause) {
    CauseNote holding = null;
    for (CauseNote note : of(cause)) {
      switch (note.getKind()) {
        case TAKEN_OVER -> holding = note;
        case HANDED_BACK -> {
          if (holding != null && holding.getWrittenBy().equals(note.getWrittenBy())) {
            holding = null;
          }
        }
        case NOTE, EVIDENCE_ASKED -> {
          // it stays with whom it is
        }
      }
    }
    return Optional.ofNullable(holding);
  }
}
