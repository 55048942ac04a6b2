package org.kornspur.api.packaged;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.concurrent.CompletableFuture;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** More dossiers at once than the heap of the packaged application could hold. */
class HeavyDocumentsIT {
  private static final int AT_ONCE = 20;
  private static final List<String> DOCUMENTS =
      List.of("/dossier.pdf?appendix=true", "/recall-drill.pdf", "/records.xlsx?ancestors=true");
  private static final Duration REST_LIMIT = Duration.ofMinutes(10);

  /** Of the demo's lots one with the most ancestors. */
  private static final String LOT = "/api/v1/lots/G26-12-1-P1";

  @Test
  @Timeout(1800)
  void shouldAnswerSomeAndSendTheOthersAwayAndStayWhole(@TempDir Path folder) throws Exception {
    UndisturbedRun.copyOfWholeDemoInto(folder);
    try (OneMachine machine = new OneMachine(folder)) {
      machine.start();
      machine.awaitReady();
      Site site = machine.site();
      try (Backlog backlog = machine.backlog()) {
        site.awaitRest(backlog, REST_LIMIT);
      }
      int standings = site.standings();
      List<CompletableFuture<Site.File>> asked =
          IntStream.range(0, AT_ONCE)
              .mapToObj(at -> site.file(LOT + DOCUMENTS.get(at % DOCUMENTS.size())))
              .toList();
      List<Site.File> answers = asked.stream().map(CompletableFuture::join).toList();
      long made = answers.stream().filter(answer -> answer.status() == 200).count();
      Report.line("%d of %d documents at once made", made, AT_ONCE);
      assertThat(made).isPositive();
      assertThat(answers)
          .allSatisfy(
              answer ->
                  assertThat(answer.status() == 503 ? answer.retryAfter() : answer.bytes())
                      .as(answer.toString())
                      .isPositive())
          .allSatisfy(answer -> assertThat(answer.status()).isIn(200, 503));
      assertThat(site.isReady()).isTrue();
      assertThat(site.standings()).isEqualTo(standings);
      for (String document : DOCUMENTS) {
        assertThat(site.file(LOT + document).join().status()).as(document).isEqualTo(200);
      }
      assertThat(machine.log()).doesNotContain("OutOfMemoryError");
    }
  }
}
