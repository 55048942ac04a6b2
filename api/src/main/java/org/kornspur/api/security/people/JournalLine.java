package org.kornspur.api.security.people;

import com.fasterxml.jackson.annotation.JsonInclude;
import org.eclipse.microprofile.openapi.annotations.media.Schema;

/** One line of the journal of people. */
@Schema(description = "One change of a person")
@JsonInclude(JsonInclude.Include.NON_NULL)
public record JournalLine(
    @Schema(description = "Lines are numbered without a gap, from 1") long number,
    @Schema(examples = "2026-03-02T09:14:07.512Z") String at,
    @Schema(description = "Person who did it, or 'first start'") String by,
    PeopleChange.Kind what,
    String personId,
    @Schema(description = "Value before, for roles, enterprise and disabled") String from,
    @Schema(description = "Value after, for roles, enterprise and disabled") String to,
    @Schema(description = "SHA-256 of the line before, without its line break; zeros in the first")
        String previous) {

  /** What stands in the place of a person where nobody could ask yet. */
  public static final String FIRST_START = "first start";
}
