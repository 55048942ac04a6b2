package org.kornspur.api.packaged;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.kornspur.api.NeedsProgram;
import org.kornspur.api.Program;
import org.kornspur.api.Waiting;
import org.kornspur.api.security.Role;
import org.kornspur.api.security.login.Asking;
import org.kornspur.api.security.login.FormTokens;
import org.kornspur.api.security.login.RoutePolicy;
import org.kornspur.api.security.people.TestPeople;
import org.kornspur.ingest.verify.VerifyCommand;

/**
 * The clock of the machine is set back by an hour while the packaged application runs and facts
 * come, forward again, and back once more: nothing is lost and nothing becomes fit by it, acts
 * follow what their signers saw, log-ins and limits hold as they did.
 */
@NeedsProgram(Program.C_COMPILER)
class ClockSetBackIT {
  private static final Duration HOUR_BACK = Duration.ofHours(-1);
  private static final Duration REST_LIMIT = Duration.ofMinutes(5);
  private static final int BATCH = 100;
  private static final int WRONG_PASSWORDS = 5;
  private static final int TOO_MANY = 429;
  private static final String ACCOUNT = "/api/v1/account";
  private static final ObjectMapper JSON = new ObjectMapper();

  /** Nobody else logs in as these here. */
  private static final String WITH_COOKIE = TestPeople.of(Role.INSPECTOR);

  private static final String GUESSED = TestPeople.of(Role.AUDITOR);

  private record Session(String cookie, String token) {}

  @Test
  @Timeout(1200)
  void shouldLoseNothingAndOpenNothing(@TempDir Path folder) throws Exception {
    List<String> facts = DemoFacts.seasons();
    Map<String, JsonNode> expected = UndisturbedRun.ofTwoSeasons().everything();
    MachineFaults machineFaults = MachineFaults.in(folder);
    try (OneMachine machine = new OneMachine(Files.createDirectory(folder.resolve("site")))) {
      machineFaults.addTo(machine);
      machine.start();
      machine.awaitReady();
      Site site = machine.site();
      Asking asking = new Asking("http://127.0.0.1:" + machine.port());
      try (Backlog backlog = machine.backlog()) {
        post(site, facts.subList(0, facts.size() / 2));
        Session before = logIn(asking);
        guess(asking);

        machineFaults.setClockOff(HOUR_BACK);
        assertThat(Duration.between(answeredAt(site), Instant.now()))
            .isBetween(Duration.ofMinutes(59), Duration.ofMinutes(61));
        Deadline sinceSetBack = Deadline.in(REST_LIMIT, "all goes on with the clock set back");
        try (ReadyThroughout ready = new ReadyThroughout(site)) {
          post(site, facts.subList(facts.size() / 2, facts.size()));
          site.awaitRest(backlog, REST_LIMIT);
          Report.line(
              "Clock set back: %d facts at rest after %.1f s",
              facts.size() - facts.size() / 2, sinceSetBack.elapsed().toMillis() / 1000.0);
          assertThat(site.everything()).isEqualTo(expected);
          assertAllIsSigned(machine);
          assertLogInsHold(asking, before);
          assertThat(tried(asking, "wrong again")).isEqualTo(TOO_MANY);
          Waiting.until(() -> tried(asking, TestPeople.password()) == 200);
          Report.line(
              "Clock set back: a person who was shut out is let in after %.1f s",
              sinceSetBack.elapsed().toMillis() / 1000.0);
          ready.assertNeverDown();

          assertActsFollowWhatTheirSignersSaw(site, machineFaults, backlog);
          ready.assertNeverDown();
        }
        assertAllIsSigned(machine);
        Map<String, JsonNode> atRest = site.everything();
        Session ahead = logIn(asking);
        machine.stop();

        machineFaults.setClockOff(HOUR_BACK);
        machine.start();
        Report.line("Started an hour before its own past: ready after %s", machine.awaitReady());
        site.awaitRest(backlog, REST_LIMIT);
        assertThat(site.everything()).isEqualTo(atRest);
        assertThat(account(asking, ahead)).as("a log-in of a time to come").isEqualTo(401);
        assertLogInsHold(asking, logIn(asking));
        assertAllIsSigned(machine);
      }
    }
  }

  private static void post(Site site, List<String> facts) throws Exception {
    for (int from = 0; from < facts.size(); from += BATCH) {
      List<String> batch = facts.subList(from, Math.min(from + BATCH, facts.size()));
      Site.Answer answer = site.postLines("/api/v1/facts", String.join("\n", batch));
      assertThat(answer.status()).as("%s", answer).isEqualTo(200);
      assertThat(answer.body().path("unsent").asInt(-1)).as("%s", answer).isZero();
    }
  }

  private static Instant answeredAt(Site site) throws Exception {
    return Instant.parse(site.get("/api/v1/lots?size=1").body().at("/asOf/answeredAt").asText());
  }

  /** A lot is released at one time and held back at one that seems to be before it. */
  private static void assertActsFollowWhatTheirSignersSaw(
      Site site, MachineFaults machineFaults, Backlog backlog) throws Exception {
    String lot = SignedByQuality.FIT_LOT;
    post(site, SignedByQuality.factsOfFitLot());
    machineFaults.setClockOff(Duration.ZERO);
    site.awaitRest(backlog, REST_LIMIT);
    SignedByQuality.sign(site, lot, "RELEASE");
    site.awaitRest(backlog, REST_LIMIT);
    assertThat(SignedByQuality.step(site, lot)).isEqualTo("RELEASED");

    machineFaults.setClockOff(HOUR_BACK);
    SignedByQuality.sign(site, lot, "SUSPEND");
    site.awaitRest(backlog, REST_LIMIT);
    assertThat(SignedByQuality.step(site, lot)).isEqualTo("SUSPENDED");
    SignedByQuality.sign(site, lot, "RELEASE");
    site.awaitRest(backlog, REST_LIMIT);
    assertThat(SignedByQuality.step(site, lot)).isEqualTo("RELEASED");

    machineFaults.setClockOff(Duration.ZERO);
    site.awaitRest(backlog, REST_LIMIT);
    assertThat(SignedByQuality.step(site, lot)).isEqualTo("RELEASED");
    assertThat(site.answer(lot + "/acts")).hasSize(3);
    SignedByQuality.assertSignaturesVerify(site, lot);
  }

  /** Checkpoints go on, and the chain is whole. */
  private static void assertAllIsSigned(OneMachine machine) throws InterruptedException {
    Deadline deadline = Deadline.in(Duration.ofMinutes(1), "every record is signed");
    OneMachine.Outcome verified = machine.verifyRunning();
    while (!verified.text().matches("(?s).*INTACT: (\\d+) of \\1 .*")) {
      if (deadline.passed()) {
        throw deadline.missed(verified.text());
      }
      Thread.sleep(500);
      verified = machine.verifyRunning();
    }
    assertThat(verified.exitCode()).as(verified.text()).isEqualTo(VerifyCommand.INTACT);
  }

  /** A log-in goes on, one may log in anew, and whoever logs out has ended both. */
  private static void assertLogInsHold(Asking asking, Session before) throws Exception {
    assertThat(account(asking, before)).isEqualTo(200);
    Session after = logIn(asking);
    assertThat(account(asking, after)).isEqualTo(200);

    Map<String, String> logOut = new HashMap<>(Map.of("Cookie", after.cookie()));
    logOut.put(FormTokens.HEADER, after.token());
    logOut.put("Sec-Fetch-Site", "same-origin");
    assertThat(asking.ask("DELETE", RoutePolicy.SESSION, logOut, "").status()).isEqualTo(204);
    assertThat(account(asking, after)).isEqualTo(401);
    assertThat(account(asking, before)).isEqualTo(401);

    assertThat(account(asking, logIn(asking))).isEqualTo(200);
  }

  private static Session logIn(Asking asking) throws Exception {
    Asking.Answer answer = asking.logIn(WITH_COOKIE, TestPeople.password(), Map.of());
    assertThat(answer.status()).as(answer.body()).isEqualTo(200);
    String cookie = answer.header("Set-Cookie").split(";", 2)[0];
    return new Session(cookie, JSON.readTree(answer.body()).path("csrfToken").asText());
  }

  private static int account(Asking asking, Session session) throws Exception {
    return asking.ask("GET", ACCOUNT, Map.of("Cookie", session.cookie()), "").status();
  }

  private static void guess(Asking asking) throws Exception {
    for (int wrong = 0; wrong < WRONG_PASSWORDS; wrong++) {
      assertThat(tried(asking, "wrong " + wrong)).isEqualTo(401);
    }
    assertThat(tried(asking, TestPeople.password())).isEqualTo(TOO_MANY);
  }

  private static int tried(Asking asking, String password) throws Exception {
    return asking
        .ask("GET", ACCOUNT, Map.of("Authorization", TestPeople.basic(GUESSED, password)), "")
        .status();
  }

  /** Looks whether a site is ready, five times a second. */
  private static final class ReadyThroughout implements AutoCloseable {
    private final Thread looking = new Thread(this::look, "ready-throughout");
    private final Site site;
    private volatile boolean ended;
    private volatile String down;
    private volatile int looks;

    ReadyThroughout(Site site) {
      this.site = site;
      looking.start();
    }

    private void look() {
      while (!ended) {
        try {
          Site.Answer answer = site.get("/health/ready");
          if (answer.status() != 200 && down == null) {
            down = Instant.now().truncatedTo(ChronoUnit.SECONDS) + " " + answer;
          }
          looks++;
          Thread.sleep(200);
        } catch (IOException noAnswer) {
          down = noAnswer.toString();
        } catch (InterruptedException stopped) {
          return;
        }
      }
    }

    void assertNeverDown() {
      assertThat(looks).isPositive();
      assertThat(down).isNull();
    }

    @Override
    public void close() throws InterruptedException {
      ended = true;
      looking.join();
    }
  }
}
