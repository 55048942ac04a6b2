package org.kornspur.api.query.advice;

import java.util.List;
import org.eclipse.microprofile.openapi.annotations.media.Schema;
import org.kornspur.api.text.ReaderWords;
import org.kornspur.processors.advice.InputValue;

@Schema(description = "A number that a piece of advice rests on, with its unit and source")
public record InputView(
    @Schema(examples = "shedding plants among the females") String what,
    @Schema(description = "Least value, in unit") double least,
    @Schema(description = "Most likely value, in unit") double likely,
    @Schema(description = "Greatest value, in unit") double greatest,
    @Schema(description = "share is from 0 to 1", examples = "share") String unit,
    @Schema(description = "COUNTED here, STATED, PUBLISHED in literature, or ASSUMED")
        InputValue.Origin origin,
    String source,
    @Schema(description = "False where it was neither counted here nor read in a text")
        boolean verified,
    @Schema(description = "Facts that it rests on") List<String> factIds) {

  static InputView of(InputValue input, ReaderWords words) {
    return new InputView(
        words.plain(input.what()),
        input.value().least(),
        input.value().likely(),
        input.value().greatest(),
        input.unit(),
        input.origin(),
        words.plain(input.source()),
        input.verified(),
        input.factIds());
  }
}
