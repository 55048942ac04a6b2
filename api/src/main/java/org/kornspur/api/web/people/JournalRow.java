package org.kornspur.api.web.people;

import java.time.Instant;
import java.util.Arrays;
import java.util.stream.Collectors;
import org.kornspur.api.security.people.JournalLine;
import org.kornspur.api.text.LocalFormat;
import org.kornspur.api.text.PageTexts;

/**
 * A line of the journal of people, in words.
 *
 * @param what what changed, from what to what
 */
public record JournalRow(long number, String at, String by, String personId, String what) {

  /**
   * Writes them.
   *
   * @param texts of people
   */
  record Words(PageTexts texts, LocalFormat form) {

    JournalRow row(JournalLine line) {
      return new JournalRow(
          line.number(),
          form.moment(Instant.parse(line.at())),
          line.by().equals(JournalLine.FIRST_START) ? texts.of("firstStart") : line.by(),
          line.personId(),
          what(line));
    }

    private String what(JournalLine line) {
      return switch (line.what()) {
        case ROLES ->
            line.from() == null
                ? texts.of("rolesGiven", roles(line.to()))
                : texts.of("rolesChanged", roles(line.from()), roles(line.to()));
        case ENTERPRISE -> enterprise(line);
        case DISABLED -> texts.of(Boolean.parseBoolean(line.to()) ? "wasBlocked" : "wasUnblocked");
        case CONFIRMATION ->
            line.to() == null
                ? texts.of("confirmed", line.from())
                : texts.of("toBeConfirmed", line.to());
        case KEPT_BEFORE,
            ADDED,
            PRINTED_NAME,
            PASSWORD,
            SESSIONS_ENDED,
            REMOVED,
            SIGNER_NAME_FORGOTTEN,
            FORGETTING_NOT_CONFIRMED ->
            texts.of("change", line.what());
      };
    }

    private String enterprise(JournalLine line) {
      if (line.to() == null) {
        return texts.of("enterpriseTaken", line.from());
      }
      return line.from() == null
          ? texts.of("enterpriseGiven", line.to())
          : texts.of("enterpriseChanged", line.from(), line.to());
    }

    private String roles(String names) {
      return Arrays.stream(names.split(", "))
          .map(name -> texts.has("role." + name) ? texts.of("role", name) : name)
          .collect(Collectors.joining(", "));
    }
  }
}
