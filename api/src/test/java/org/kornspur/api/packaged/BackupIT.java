package org.kornspur.api.packaged;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.kornspur.api.TestFolder;
import org.kornspur.api.security.login.AsPerson;
import org.kornspur.api.security.login.Asking;
import org.kornspur.ingest.verify.VerifyCommand;

/**
 * A backup of the running packaged application, started in the place of another: standings,
 * signatures and the proof of the log are those of the site.
 */
class BackupIT {
  private static final Duration REST_LIMIT = Duration.ofMinutes(5);
  private static final String LOT = SignedByQuality.FIT_LOT;

  @Test
  @Timeout(900)
  void shouldHoldStandingsAndSignaturesOfTheSite(@TempDir Path folder) throws Exception {
    Map<String, JsonNode> standings;
    JsonNode acts;
    Path copy;
    try (OneMachine site = new OneMachine(Files.createDirectory(folder.resolve("site")))) {
      site.with("KORNSPUR_BACKUP_FOLDER", folder.resolve("backups").toString()).start();
      site.awaitReady();
      List<String> facts = DemoFacts.seasons().subList(0, 200);
      assertThat(post(site, facts).status()).isEqualTo(200);
      assertThat(post(site, SignedByQuality.factsOfFitLot()).status()).isEqualTo(200);
      awaitRest(site);
      SignedByQuality.sign(site.site(), LOT, "RELEASE");
      awaitRest(site);
      standings = site.site().everything();
      acts = site.site().answer(LOT + "/acts");
      copy = backUp(site);
    }
    try (OneMachine restored = new OneMachine(Files.createDirectory(folder.resolve("restored")))) {
      moveInto(restored.dataFolder(), copy);
      restored.start();
      restored.awaitReady();
      awaitRest(restored);
      assertThat(restored.site().everything()).isEqualTo(standings);
      assertThat(SignedByQuality.step(restored.site(), LOT)).isEqualTo("RELEASED");
      SignedByQuality.assertSignaturesVerify(restored.site(), LOT);
      assertThat(restored.site().answer(LOT + "/acts")).isEqualTo(acts);
      assertThat(restored.verifyRunning().exitCode()).isEqualTo(VerifyCommand.INTACT);
    }
  }

  private static Site.Answer post(OneMachine machine, List<String> facts) throws Exception {
    return machine.site().postLines("/api/v1/facts", String.join("\n", facts));
  }

  private static void awaitRest(OneMachine machine) throws Exception {
    try (Backlog backlog = machine.backlog()) {
      machine.site().awaitRest(backlog, REST_LIMIT);
    }
  }

  private static Path backUp(OneMachine machine) throws Exception {
    Asking.Answer made =
        new Asking("http://127.0.0.1:" + machine.port())
            .post(AsPerson.EVERYTHING, "/api/v1/backups", "");
    assertThat(made.status()).as(made.body()).isEqualTo(201);
    return Path.of(new ObjectMapper().readTree(made.body()).path("folder").asText());
  }

  private static void moveInto(Path dataFolder, Path copy) throws IOException {
    TestFolder.emptied(dataFolder);
    try (Stream<Path> parts = Files.list(copy)) {
      for (Path part : parts.toList()) {
        Files.move(part, dataFolder.resolve(part.getFileName()));
      }
    }
  }
}
