package org.kornspur.processors.stream;

import java.time.Instant;
import java.time.format.DateTimeParseException;
import java.util.List;
import java.util.Optional;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.contract.FactHeader;
import org.kornspur.ingest.contract.FactType;
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
 * @param type of the fact that supersedes; empty in notes of an earlier version
 */
record RevocationNote(
    String reason,
    Optional<String> recordedBy,
    Optional<Instant> recordedAt,
    boolean isProven,
    Optional<FactType> type) {

  /** Parts the fields. No text of a fact may hold it, so a bare reason cannot be mistaken. */
  private static final String SEPARATOR = "\u0001";

  private static final String PROVEN = "proven";
  private static final String UNPROVEN = "unproven";

  static RevocationNote of(SpecificRecord superseding, String reason) {
    FactHeader header = FactType.headerOf(superseding);
    return new RevocationNote(
        reason,
        Optional.of(header.getRecordedBy()),
        Optional.of(header.getRecordedAt()),
        header.getSubmission() != null,
        Optional.of(FactType.of(superseding)));
  }

  /** Whether it takes the fact back and puts nothing in its place. */
  private boolean isWithdrawal() {
    return type.equals(Optional.of(FactType.WITHDRAWAL));
  }

  /**
   * Whether all that takes effect against a fact only takes it back. A correction that was itself
   * corrected has something in its place, though it was withdrawn too.
   */
  static boolean onlyWithdraw(List<RevocationNote> effective) {
    return !effective.isEmpty() && effective.stream().allMatch(RevocationNote::isWithdrawal);
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
        isProven ? PROVEN : UNPROVEN,
        type.map(FactType::contractName).orElse(""));
  }

  /** What took a fact's place: the fact with this id, as this note of it says. */
  Superseded superseded(String byFactId) {
    return new Superseded(byFactId, reason, recordedBy, recordedAt, type);
  }

  static RevocationNote read(String text) {
    if (!text.startsWith(SEPARATOR)) {
      return new RevocationNote(text, Optional.empty(), Optional.empty(), true, Optional.empty());
    }
    List<String> parts = List.of(text.split(SEPARATOR, -1));
    try {
      return new RevocationNote(
          parts.get(3),
          Optional.of(parts.get(1)),
          Optional.of(Instant.parse(parts.get(2))),
          parts.size() == 4 || parts.get(4).equals(PROVEN),
          parts.stream().skip(5).findFirst().flatMap(FactType::named));
    } catch (DateTimeParseException | IndexOutOfBoundsException noNote) {
      return new RevocationNote(text, Optional.empty(), Optional.empty(), false, Optional.empty());
    }
  }
}
