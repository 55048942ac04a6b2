package org.kornspur.api.command.act;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.charset.StandardCharsets;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.kornspur.api.problem.ApiProblem;
import org.kornspur.api.security.login.FormFields;
import org.kornspur.contract.ActKind;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.intake.Problem;

/** What is asked for when several lots are to be released. */
class ReleasesRequestTest {
  private static final String SEAL = "0a".repeat(32);
  private static final String OTHER_SEAL = "b1".repeat(32);

  @Test
  void eachLotIsAskedForAsItWouldBeAlone() {
    ReleasesRequest request =
        read(
            """
            {"reason": "all is met", "meaning": "responsibility", "password": "secret",
            "lots": [{"id": "L-2", "seal": "%s"}, {"id": "L-1", "seal": "%s"}]}\
            """
                .formatted(SEAL, OTHER_SEAL));

    assertThat(request.acts().keySet()).containsExactly(Subject.lot("L-2"), Subject.lot("L-1"));
    ActRequest second = request.acts().get(Subject.lot("L-1"));
    assertThat(second.kind()).isEqualTo(ActKind.RELEASE);
    assertThat(second.seal()).isEqualTo(OTHER_SEAL);
    assertThat(second.reason()).isEqualTo("all is met");
    assertThat(second.password()).isEqualTo(Optional.of("secret"));
    assertThat(request.toString()).doesNotContain("secret");
  }

  @Test
  void theyAreReleasedUnlessTheyAreToBeSuspended() {
    for (ActKind kind : new ActKind[] {ActKind.RELEASE, ActKind.SUSPEND}) {
      ReleasesRequest request = read(asking(kind.name()));

      assertThat(request.kind()).isEqualTo(kind);
      assertThat(request.acts().get(Subject.lot("L-1")).kind())
          .as("what a lot alone asks for counts for nothing")
          .isEqualTo(kind);
    }
    for (String other : new String[] {"CONDEMN", "DOWNGRADE", "release"}) {
      assertThatThrownBy(() -> read(asking(other)))
          .isInstanceOfSatisfying(
              ApiProblem.class,
              refused ->
                  assertThat(refused.document().problems())
                      .extracting(Problem::field)
                      .containsExactly("kind"));
    }
  }

  private static String asking(String kind) {
    return """
    {"kind": "%s", "reason": "r", "meaning": "m",
    "lots": [{"id": "L-1", "seal": "%s", "kind": "CONDEMN"}]}\
    """
        .formatted(kind, SEAL);
  }

  @Test
  void allThatIsWrongIsSaidAtOnceAndWhere() {
    assertThatThrownBy(
            () ->
                read(
                    """
                    {"meaning": "m", "password": "secret",
                    "lots": [{"id": "L-1", "seal": "%s"}, {"id": "L-2", "seal": "12"},
                    {"id": " ", "seal": "%1$s"}]}\
                    """
                        .formatted(SEAL)))
        .isInstanceOfSatisfying(
            ApiProblem.class,
            refused -> {
              assertThat(refused.document().problems())
                  .extracting(Problem::field)
                  .containsExactly("reason", "lots[1].seal", "lots[2].id");
              assertThat(refused.document().toString()).doesNotContain("secret");
            });
  }

  @Test
  void noLotAndTooManyLotsAreRefused() {
    String many =
        IntStream.rangeClosed(0, ReleasesRequest.MOST)
            .mapToObj(number -> "{\"id\": \"L-%d\", \"seal\": \"%s\"}".formatted(number, SEAL))
            .collect(Collectors.joining(","));
    for (String lots : new String[] {"[]", "{}", "null", "[" + many + "]"}) {
      assertThatThrownBy(
              () -> read("{\"reason\": \"r\", \"meaning\": \"m\", \"lots\": " + lots + "}"))
          .isInstanceOfSatisfying(
              ApiProblem.class,
              refused ->
                  assertThat(refused.document().problems())
                      .extracting(Problem::field)
                      .containsExactly("lots"));
    }
  }

  @Test
  void aFormNamesTheChosenLotsOrAllThatItShowed() {
    String shown =
        "shown=%1$s+L-1%%2FA&lot=%1$s+L-1%%2FA&shown=%2$s+L-2&reason=r&meaning=m&password=p"
            .formatted(SEAL, OTHER_SEAL);

    assertThat(ReleasesRequest.read(FormFields.of(utf8(shown)), ActKind.RELEASE).acts().keySet())
        .containsExactly(Subject.lot("L-1/A"));
    assertThat(
            ReleasesRequest.read(FormFields.of(utf8("all=true&" + shown)), ActKind.RELEASE)
                .acts()
                .keySet())
        .containsExactly(Subject.lot("L-1/A"), Subject.lot("L-2"));
  }

  private static ReleasesRequest read(String json) {
    return ReleasesRequest.read(utf8(json));
  }

  private static byte[] utf8(String text) {
    return text.getBytes(StandardCharsets.UTF_8);
  }
}
