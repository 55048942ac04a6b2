package org.kornspur.api.command.act;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.Collections;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.eclipse.microprofile.openapi.annotations.media.Schema;
import org.kornspur.api.problem.ApiProblem;
import org.kornspur.api.problem.ParameterProblem;
import org.kornspur.api.problem.ProblemKind;
import org.kornspur.api.problem.SigningProblem;
import org.kornspur.api.security.login.FormFields;
import org.kornspur.contract.ActKind;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.intake.Problem;
import org.kornspur.ingest.problem.Given;

/**
 * Lots that a person wants to release or to suspend at once, with one reason, one meaning and one
 * password.
 *
 * @param kind what is signed for each of them
 * @param acts the act of each lot, in the order in which they were given
 */
public record ReleasesRequest(ActKind kind, Map<Subject, ActRequest> acts) {

  /** Lots that can be signed for at once. */
  public static final int MOST = 200;

  private static final Set<ActKind> KINDS = EnumSet.of(ActKind.RELEASE, ActKind.SUSPEND);
  private static final String KIND = "kind";
  private static final String LOTS = "lots";
  private static final String SEAL = "seal";

  /** The body as it is described. */
  @Schema(
      name = "ReleasesRequest",
      description = "Lots that a person wants to release, or to suspend, at once")
  public record Body(
      @Schema(
              description = "Without it they are released",
              enumeration = {"RELEASE", "SUSPEND"})
          String kind,
      @Schema(description = "Why, in words that an auditor understands", required = true)
          String reason,
      @Schema(
              description = "What each of the signatures means",
              examples = "responsibility for the release",
              required = true)
          String meaning,
      @Schema(description = "Your password again, unless you come with a token") String password,
      @Schema(description = "1 to 200 lots", required = true) List<SealedLot> lots) {}

  /** A lot with what the person read of it. */
  @Schema(description = "A lot to sign for")
  public record SealedLot(
      @Schema(description = "Id of the lot", required = true) String id,
      @Schema(description = "Seal of the release sheet that you read", required = true)
          String seal) {}

  public ReleasesRequest {
    acts = Collections.unmodifiableMap(new LinkedHashMap<>(acts));
  }

  /**
   * Reads a body and says all that is wrong with it at once. Nothing of the password is ever shown.
   *
   * @throws ApiProblem if anything is wrong
   */
  public static ReleasesRequest read(byte[] utf8) {
    JsonNode json = ActRequest.object(utf8);
    String named = json.path(KIND).asText(ActKind.RELEASE.name());
    ActKind kind =
        KINDS.stream()
            .filter(one -> one.name().equals(named))
            .findFirst()
            .orElseThrow(
                () ->
                    new ApiProblem(
                        ProblemKind.INVALID_PARAMETER,
                        Problem.of(
                            KIND,
                            named,
                            new ParameterProblem.OneOf(KINDS.stream().map(Enum::name).toList()))));
    return read(json, kind);
  }

  /**
   * The same of a form. Each {@code lot} is a seal, a space and an id; with {@code all} every
   * {@code shown} is chosen, whether its own box is or not, so that no script is needed.
   *
   * @throws ApiProblem if anything is wrong
   */
  public static ReleasesRequest read(FormFields form, ActKind kind) {
    ObjectNode json = JsonNodeFactory.instance.objectNode();
    for (String field : List.of("reason", "meaning", "password")) {
      form.first(field).ifPresent(value -> json.put(field, value));
    }
    ArrayNode lots = json.putArray(LOTS);
    for (String chosen : chosen(form)) {
      int space = chosen.indexOf(' ');
      lots.addObject()
          .put("id", chosen.substring(space + 1))
          .put(SEAL, chosen.substring(0, Math.max(0, space)));
    }
    return read(json, kind);
  }

  /** What a form chooses, each a seal, a space and an id. */
  public static List<String> chosen(FormFields form) {
    return form.all(form.first("all").isPresent() ? "shown" : "lot");
  }

  private static ReleasesRequest read(JsonNode json, ActKind kind) {
    JsonNode lots = json.path(LOTS);
    if (!lots.isArray() || lots.isEmpty() || lots.size() > MOST) {
      throw new ApiProblem(
          ProblemKind.INVALID_PARAMETER,
          Problem.of(LOTS, new Given.ListOf(lots.size()), new SigningProblem.NoLots(MOST)));
    }
    Map<Subject, ActRequest> acts = new LinkedHashMap<>();
    Set<Problem> problems = new LinkedHashSet<>();
    for (int at = 0; at < lots.size(); at++) {
      String id = lots.get(at).path("id").asText("").strip();
      if (id.isEmpty()) {
        problems.add(Problem.of(LOTS + "[" + at + "].id", null, new SigningProblem.NoText()));
        continue;
      }
      try {
        acts.putIfAbsent(Subject.lot(id), ActRequest.read(one(json, lots.get(at), kind)));
      } catch (ApiProblem wrong) {
        for (Problem problem : wrong.document().problems()) {
          problems.add(
              problem.field().equals(SEAL)
                  ? new Problem(LOTS + "[" + at + "]." + SEAL, problem.value(), problem.reason())
                  : problem);
        }
      }
    }
    if (!problems.isEmpty()) {
      throw new ApiProblem(ProblemKind.INVALID_PARAMETER, List.copyOf(problems));
    }
    return new ReleasesRequest(kind, acts);
  }

  /** What would be sent to sign for the one lot alone. */
  private static JsonNode one(JsonNode json, JsonNode lot, ActKind kind) {
    ObjectNode one = JsonNodeFactory.instance.objectNode().put(KIND, kind.name());
    for (String field : List.of("reason", "meaning", "password")) {
      one.set(field, json.get(field));
    }
    return one.set(SEAL, lot.get(SEAL));
  }
}
