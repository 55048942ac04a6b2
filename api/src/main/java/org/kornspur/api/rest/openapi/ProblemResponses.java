package org.kornspur.api.rest.openapi;

import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.eclipse.microprofile.openapi.OASFactory;
import org.eclipse.microprofile.openapi.models.Components;
import org.eclipse.microprofile.openapi.models.Operation;
import org.eclipse.microprofile.openapi.models.media.Schema;
import org.eclipse.microprofile.openapi.models.responses.APIResponse;
import org.eclipse.microprofile.openapi.models.responses.APIResponses;
import org.kornspur.api.problem.ProblemAnswer;
import org.kornspur.api.problem.ProblemKind;

/**
 * The answers that say what is wrong: one for each status, with the kinds of problem that bear it.
 */
record ProblemResponses(Map<Integer, List<ProblemKind>> byStatus) {

  /** What a resource refers to; here it becomes that of the status. */
  private static final String ANY = "Problem";

  private static final List<Integer> ANYWHERE = List.of(400, 429, 500, 503);
  private static final int NOT_FOUND = 404;
  private static final List<Integer> WHERE_A_LOG_IN_IS_NEEDED = List.of(401, 403);

  static ProblemResponses addedTo(Components components) {
    ProblemResponses problems =
        new ProblemResponses(
            Arrays.stream(ProblemKind.values())
                .collect(
                    Collectors.groupingBy(ProblemKind::status, TreeMap::new, Collectors.toList())));
    components.removeResponse(ANY);
    problems.byStatus.forEach(
        (status, kinds) -> components.addResponse(name(status), response(status, kinds)));
    return problems;
  }

  /** What any operation may answer is added here; what only it may answer, it names itself. */
  void addTo(String path, Operation operation, boolean needsLogIn) {
    APIResponses responses = operation.getResponses();
    ANYWHERE.forEach(status -> addTo(responses, status));
    if (path.contains("{")) {
      addTo(responses, NOT_FOUND);
    }
    if (needsLogIn) {
      WHERE_A_LOG_IN_IS_NEEDED.forEach(status -> addTo(responses, status));
    }
    byStatus
        .keySet()
        .forEach(
            status -> {
              APIResponse said = responses.getAPIResponse(status.toString());
              if (said != null && said.getRef() != null) {
                responses.addAPIResponse(status.toString(), References.response(name(status)));
              }
            });
  }

  private static void addTo(APIResponses responses, int status) {
    APIResponse said = responses.getAPIResponse(Integer.toString(status));
    if (said == null || said.getContent() == null) {
      responses.addAPIResponse(Integer.toString(status), References.response(name(status)));
    }
  }

  private static APIResponse response(int status, List<ProblemKind> kinds) {
    Schema of = OASFactory.createSchema();
    of.addAllOf(References.schema("ProblemDocument"));
    of.addAllOf(
        OASFactory.createSchema()
            .addProperty(
                "type",
                OASFactory.createSchema()
                    .enumeration(
                        kinds.stream().map(ProblemKind::type).map(Object.class::cast).toList()))
            .addProperty("status", constant(status)));
    return OASFactory.createAPIResponse()
        .description(
            "What is wrong, and what to do next (RFC 9457): "
                + kinds.stream().map(ProblemKind::word).collect(Collectors.joining(", ")))
        .content(
            OASFactory.createContent()
                .addMediaType(ProblemAnswer.MEDIA_TYPE, OASFactory.createMediaType().schema(of)));
  }

  private static Schema constant(int status) {
    Schema constant = OASFactory.createSchema();
    constant.setConstValue(status);
    return constant;
  }

  private static String name(int status) {
    return ANY + status;
  }
}
