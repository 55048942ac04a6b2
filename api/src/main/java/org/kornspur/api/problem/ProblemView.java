package org.kornspur.api.problem;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.List;
import org.eclipse.microprofile.openapi.annotations.enums.SchemaType;
import org.eclipse.microprofile.openapi.annotations.media.Schema;
import org.kornspur.ingest.intake.Problem;
import org.kornspur.ingest.intake.ProblemWords;
import org.kornspur.ingest.statement.StatementJson;

/** One thing that is wrong, in words for a person and in a code for a program. */
@Schema(
    name = "Problem",
    description = "One thing that is wrong: the words are in the language of Accept-Language")
public record ProblemView(
    @Schema(
            description = "Dotted path; empty for the input as a whole",
            examples = "sown[1].massKg")
        String field,
    @Schema(description = "What was given", examples = "0") String value,
    @Schema(description = "What is expected", examples = "0.001 kg to 10,000,000 kg") String limit,
    @Schema(examples = "Give the net mass of seed in kilograms") String remedy,
    @Schema(description = "Value, limit and remedy in one sentence, to stand beside the field")
        String detail,
    @Schema(description = "The same in every language", examples = "number-problem.out-of-range")
        String code,
    @Schema(type = SchemaType.OBJECT, description = "What the words are made of, by name")
        JsonNode arguments) {

  public static ProblemView of(Problem problem, ProblemWords words) {
    return new ProblemView(
        problem.field(),
        words.value(problem),
        words.limit(problem),
        words.remedy(problem),
        words.besideField(problem),
        problem.reason().code(),
        StatementJson.node(problem.reason()).get("arguments"));
  }

  public static List<ProblemView> all(List<Problem> problems, ProblemWords words) {
    return problems.stream().map(problem -> of(problem, words)).toList();
  }
}
