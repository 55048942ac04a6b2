package org.kornspur.api.query.view;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.List;
import org.eclipse.microprofile.openapi.annotations.media.Schema;
import org.kornspur.api.text.ReaderWords;
import org.kornspur.ingest.statement.Coded;
import org.kornspur.ingest.statement.StatementJson;

@Schema(description = "Something that is said, as data: its code and its arguments")
public record StatementView(
    @Schema(examples = "germination.found") String code,
    @Schema(
            description =
                "By name. A number is a count, a text was recorded so; all else names its kind:"
                    + " amount and unit, day, time, term, subject, fact, person, code and arguments")
        JsonNode arguments) {

  static List<StatementView> of(List<Coded> statements, ReaderWords words) {
    return statements.stream()
        .map(words::visible)
        .map(StatementJson::node)
        .map(node -> new StatementView(node.get("code").asText(), node.get("arguments")))
        .toList();
  }
}
