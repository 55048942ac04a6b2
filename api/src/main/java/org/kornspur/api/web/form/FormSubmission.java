package org.kornspur.api.web.form;

import com.fasterxml.jackson.databind.node.ObjectNode;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import java.util.function.Consumer;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.api.command.fact.QuarantineDecisions;
import org.kornspur.api.command.fact.SubmissionAnswers;
import org.kornspur.api.problem.ApiProblem;
import org.kornspur.api.problem.ProblemLanguage;
import org.kornspur.ingest.intake.Problem;
import org.kornspur.ingest.intake.ProblemWords;
import org.kornspur.ingest.json.FactParser;
import org.kornspur.ingest.json.ReadResult;

/** Sends the fact of a form through the same intake as every other fact. */
@ApplicationScoped
public class FormSubmission {
  @Inject SubmissionAnswers intake;
  @Inject QuarantineDecisions quarantine;
  @Inject ProblemLanguage language;

  /**
   * Sends a fact.
   *
   * @return what is wrong, by field; nothing where it went in
   */
  public Map<String, List<Field.Fault>> send(ObjectNode fact) {
    return send(fact, json -> intake.json(json, UUID.randomUUID().toString()));
  }

  /**
   * Sends a fact in the place of refused input, which is settled by it.
   *
   * @return what is wrong, by field; nothing where it went in
   */
  public Map<String, List<Field.Fault>> replay(ObjectNode fact, String entryId) {
    return send(fact, json -> quarantine.replay(entryId, json, Optional.empty()));
  }

  private Map<String, List<Field.Fault>> send(ObjectNode fact, Consumer<byte[]> into) {
    byte[] json = fact.toString().getBytes(StandardCharsets.UTF_8);
    if (FactParser.accept(json) instanceof ReadResult.Refused refused) {
      // a slip of the thumb is mended here and need not be settled by somebody else
      return byField(refused.problems());
    }
    try {
      into.accept(json);
      return Map.of();
    } catch (ApiProblem problem) {
      if (problem.document().problems().isEmpty()) {
        throw problem;
      }
      return byField(problem.document().problems());
    }
  }

  /**
   * The fact of a form as the intake reads it, without sending it.
   *
   * @param faults takes what is wrong, by field
   * @return empty where something is
   */
  public Optional<SpecificRecord> read(ObjectNode fact, Map<String, List<Field.Fault>> faults) {
    ReadResult result = FactParser.accept(fact.toString().getBytes(StandardCharsets.UTF_8));
    if (result instanceof ReadResult.Refused refused) {
      faults.putAll(byField(refused.problems()));
      return Optional.empty();
    }
    return Optional.of(((ReadResult.Fact) result).fact());
  }

  /** What is wrong, by field. */
  public Map<String, List<Field.Fault>> byField(List<Problem> problems) {
    ProblemWords words = language.words();
    Map<String, List<Field.Fault>> faults = new LinkedHashMap<>();
    for (Problem problem : problems) {
      faults
          .computeIfAbsent(problem.field(), field -> new ArrayList<>())
          .add(new Field.Fault(words.besideField(problem)));
    }
    return faults;
  }
}
