package org.kornspur.processors.stream;

import java.time.Instant;
import java.time.format.DateTimeParseException;
import java.util.List;
import java.util.Optional;
import org.kornspur.contract.FactHeader;
import org.kornspur.processors.dossier.Entry.Superseded;

/**
 * Why a fact was superseded, by whom and when, in the one text that stores and topics keep of it. A
 * text of an earlier version is the reason alone, or lacks who brought it.
 *
 * @param reason in the words of the one who superseded it
 * @param recordedBy id of the person or device; empty in notes of an earlier version
 * @param recordedAt when it was recorded; empty likewise
 * @param isProven whether the interface took in the fact that supersedes, and so checked the right
 *     to it. Notes of an earlier version count as proven: they were taken in by its rules, and
 *     stand where the processors alone write
 */
record RevocationNote(
    String reason, Optional<String> recordedBy, Optional<Instant> recordedAt, boolean isProven) {

  /** Parts the fields. No text of a fact may hold it, so a bare reason cannot be mistaken. */
  private static final String SEPARATOR = "\u0001";

  private static final String PROVEN = "proven";
  private static final String UNPROVEN = "unproven";

  static RevocationNote of(FactHeader header, String reason) {
    return new RevocationNote(
        reason,
        Optional.of(header.getRecordedBy()),
        Optional.of(header.getRecordedAt()),
        header.getSubmission() != null);
  }

  String write() {
    if (recordedBy.isEmpty() || recordedAt.isEmpty()) {
      return reason;
    }
    return String.join(
        SEPARATOR,
        "",
        recordedBy.get(),
        recordedAt.get().toString(),
        reason,
        isProven ? PROVEN : UNPROVEN);
  }

  /** What took a fact's place: the fact with this id, as this note of it says. */
  Superseded superseded(String byFactId) {
    return new Superseded(byFactId, reason, recordedBy, recordedAt);
  }

  static RevocationNote read(String text) {
    if (!text.startsWith(SEPARATOR)) {
      return new RevocationNote(text, Optional.empty(), Optional.empty(), true);
    }
    List<String> parts = List.of(text.split(SEPARATOR, -1));
    try {
      return new RevocationNote(
          parts.get(3),
          Optional.of(parts.get(1)),
          Optional.of(Instant.parse(parts.get(2))),
          parts.size() == 4 || parts.get(4).equals(PROVEN));
    } catch (DateTimeParseException | IndexOutOfBoundsException noNote) {
      return new RevocationNote(text, Optional.empty(), Optional.empty(), false);
    }
  }
}
