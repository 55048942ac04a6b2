package org.kornspur.api.packaged;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.atomic.AtomicBoolean;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.kornspur.api.EarlierRelease;
import org.kornspur.api.NeedsProgram;
import org.kornspur.api.Program;
import org.kornspur.ingest.verify.VerifyCommand;

/**
 * Three instances on three brokers are stopped and started one after the other while facts come:
 * the other two answer, and in the end all stands where one undisturbed process stands.
 */
class RollingRestartIT {
  private static final List<String> INSTANCES = List.of("kornspur-1", "kornspur-2", "kornspur-3");
  private static final Duration REST_LIMIT = Duration.ofMinutes(10);

  /** The session of an instance that left ends after ten seconds, and its work is taken over. */
  private static final Duration LONGEST_WITHOUT_OWNER = Duration.ofMinutes(1);

  private static final Duration BETWEEN_BATCHES = Duration.ofSeconds(1);
  private static final List<String> PAGES = List.of("/lots", "/desk", "/seasons");
  private static final int BATCH = 10;
  private static final int LARGE_BATCH = 100;
  private static final String LOT = SignedByQuality.FIT_LOT;

  @Test
  @Timeout(1800)
  void shouldAnswerAndLoseNothingWhileEachIsRestarted(@TempDir Path folder) throws Exception {
    roll(folder, PackagedPrograms.application());
  }

  @Test
  @Timeout(3000)
  @NeedsProgram(Program.EARLIER_RELEASE)
  void shouldAnswerAndLoseNothingWhileEachIsUpgraded(@TempDir Path folder) throws Exception {
    roll(folder, EarlierRelease.LAST.jar());
  }

  private static void roll(Path folder, Path from) throws Exception {
    List<String> facts = DemoFacts.seasons();
    List<String> before = new ArrayList<>(facts.subList(0, facts.size() / 2));
    List<String> later = facts.subList(before.size(), facts.size());
    before.addAll(SignedByQuality.factsOfFitLot());
    UndisturbedRun expected = UndisturbedRun.ofTwoSeasons();
    ComposeFile three = ComposeFile.read().withAnother(INSTANCES.get(1), INSTANCES.get(2));
    try (LoopbackCluster cluster = new LoopbackCluster(three, folder);
        Backlog backlog = cluster.backlog()) {
      cluster.start(from);
      List<Site> sites = INSTANCES.stream().map(cluster::url).map(Site::new).toList();
      for (int at = 0; at < before.size(); at += LARGE_BATCH) {
        send(before.subList(at, Math.min(at + LARGE_BATCH, before.size())), sites, 0);
      }
      sites.get(0).awaitRest(backlog, REST_LIMIT);
      SignedByQuality.sign(sites.get(0), LOT, "RELEASE");
      sites.get(0).awaitRest(backlog, REST_LIMIT);

      AtomicBoolean hurry = new AtomicBoolean();
      ExecutorService workers = Executors.newFixedThreadPool(2);
      try {
        Future<Integer> sent = workers.submit(() -> keepSending(later, sites, hurry));
        for (int at = 0; at < INSTANCES.size(); at++) {
          List<Site> others = new ArrayList<>(sites);
          others.remove(at);
          String name = INSTANCES.get(at);
          Future<Void> replaced =
              workers.submit(
                  () -> {
                    cluster.replace(name, PackagedPrograms.application());
                    return null;
                  });
          assertAnswers(name, others, replaced);
        }
        hurry.set(true);
        Report.line("%d batches came while instances were restarted", sent.get());
      } finally {
        workers.shutdownNow();
      }
      for (Site site : sites) {
        site.awaitRest(backlog, REST_LIMIT);
        expected.assertSameAs(withoutReleased(site.everything()));
        assertThat(SignedByQuality.step(site, LOT)).isEqualTo("RELEASED");
        SignedByQuality.assertSignaturesVerify(site, LOT);
      }
      assertThat(cluster.verify()).isEqualTo(VerifyCommand.INTACT);
    }
  }

  /** Until the instance is replaced: pages at once, a lot as soon as its work is taken over. */
  private static void assertAnswers(String name, List<Site> others, Future<Void> replaced)
      throws Exception {
    Deadline ready = Deadline.in(REST_LIMIT, name + " is ready again");
    Duration longest = Duration.ZERO;
    int pages = 0;
    while (!replaced.isDone()) {
      if (ready.passed()) {
        throw ready.missed("it is not");
      }
      for (Site other : others) {
        for (String page : PAGES) {
          Site.File answer = other.file(page).join();
          assertThat(answer.status()).as(page).isEqualTo(200);
          pages++;
        }
        Deadline answered = Deadline.in(LONGEST_WITHOUT_OWNER, LOT + " is answered");
        other.answer(LOT);
        longest = answered.elapsed().compareTo(longest) > 0 ? answered.elapsed() : longest;
      }
    }
    replaced.get();
    Report.line(
        "%s replaced within %.1f s; %d pages of the others meanwhile, a lot waited %.1f s at most",
        name, ready.elapsed().toMillis() / 1000.0, pages, longest.toMillis() / 1000.0);
    assertThat(pages).isPositive();
    assertThat(longest).isLessThan(LONGEST_WITHOUT_OWNER);
  }

  /** Until told to be in a hurry it never ends: what was sent is sent again, and counts once. */
  private static Integer keepSending(List<String> facts, List<Site> sites, AtomicBoolean hurry)
      throws Exception {
    int last = facts.size() - BATCH;
    int sent = 0;
    while (!hurry.get()) {
      int at = sent * BATCH % last;
      send(facts.subList(at, at + BATCH), sites, sent++);
      Thread.sleep(BETWEEN_BATCHES.toMillis());
    }
    for (int at = Math.min(sent * BATCH, last); at < facts.size(); at += BATCH) {
      send(facts.subList(at, Math.min(at + BATCH, facts.size())), sites, 0);
    }
    return sent;
  }

  /** To one after the other until one has taken all, as a sender behind a load balancer does. */
  private static void send(List<String> facts, List<Site> sites, int first) throws Exception {
    Deadline deadline = Deadline.in(REST_LIMIT, "facts are in");
    String last = "nothing";
    for (int attempt = first; ; attempt++) {
      if (deadline.passed()) {
        throw deadline.missed(last);
      }
      try {
        Site.Answer answer =
            sites.get(attempt % sites.size()).postLines("/api/v1/facts", String.join("\n", facts));
        last = answer.toString();
        if (answer.status() < 300 && answer.body().path("unsent").asInt(-1) == 0) {
          return;
        }
      } catch (IOException noAnswer) {
        last = noAnswer.toString();
      }
      Thread.sleep(100);
    }
  }

  /** But for the lot that was released, which is of this test alone. */
  private static Map<String, JsonNode> withoutReleased(Map<String, JsonNode> everything) {
    everything.keySet().removeIf(address -> address.startsWith(LOT));
    return everything;
  }
}
