package org.kornspur.api.readmodel;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.kornspur.contract.CauseNote;
import org.kornspur.contract.CauseNoteKind;
import org.kornspur.ingest.contract.Subject;

/** What is known of what was done about a cause, from notes in any order. */
class CauseNotesTest {
  private static final CauseKey CAUSE =
      new CauseKey(CauseKey.Kind.POLLEN, Subject.source("NB-S01"));

  private final CauseNotes notes = new CauseNotes();

  @Test
  void everyNoteStaysInTheOrderOfTimeAndNoneCountsTwice() {
    CauseNote first = note("a", CauseNoteKind.NOTE, "ann", 1);
    CauseNote second = note("b", CauseNoteKind.EVIDENCE_ASKED, "ben", 2);
    CauseNote sameTime = note("c", CauseNoteKind.NOTE, "ann", 2);
    for (CauseNote one : List.of(sameTime, second, first, second, first)) {
      notes.put(one);
    }

    assertThat(notes.of(CAUSE)).containsExactly(first, second, sameTime);
    assertThat(notes.of(new CauseKey(CauseKey.Kind.SEED, Subject.source("NB-S01")))).isEmpty();
    assertThat(notes.takenOver(CAUSE)).as("nobody took it over").isEmpty();
  }

  @Test
  void whoTookItOverLastHasItUntilTheyHandItBack() {
    CauseNote ann = note("a", CauseNoteKind.TAKEN_OVER, "ann", 1);
    notes.put(ann);
    notes.put(note("b", CauseNoteKind.NOTE, "ben", 2));
    assertThat(notes.takenOver(CAUSE)).contains(ann);

    CauseNote ben = note("c", CauseNoteKind.TAKEN_OVER, "ben", 3);
    notes.put(ben);
    notes.put(note("d", CauseNoteKind.HANDED_BACK, "ann", 4));
    assertThat(notes.takenOver(CAUSE)).as("ann has nothing to hand back").contains(ben);

    notes.put(note("e", CauseNoteKind.HANDED_BACK, "ben", 5));
    assertThat(notes.takenOver(CAUSE)).isEmpty();
  }

  private static CauseNote note(String id, CauseNoteKind kind, String by, long second) {
    return new CauseNote(id, CAUSE.text(), kind, by, Instant.ofEpochSecond(second), "");
  }
}
