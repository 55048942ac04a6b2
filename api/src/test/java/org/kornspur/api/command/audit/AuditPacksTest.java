package org.kornspur.api.command.audit;

import static org.assertj.core.api.Assertions.assertThat;
import static org.kornspur.api.Waiting.until;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.kornspur.api.security.Caller;
import org.kornspur.api.security.Role;
import org.kornspur.api.text.Language;

/** Who gets a pack, how many there are, and when they are deleted; the archive itself is plain. */
class AuditPacksTest {
  private static final Caller AUDITOR = caller("auditor");
  private static final AuditPackMaker PLAIN =
      (order, archive, progress) -> {
        progress.reached(AuditPackMaker.Part.PROOFS, 3, 4);
        archive.write(String.join(",", order.lots()).getBytes(StandardCharsets.UTF_8));
      };

  @TempDir Path folder;
  private final AtomicInteger hours = new AtomicInteger();
  private AuditPacks packs;

  @AfterEach
  void close() {
    packs.close();
  }

  @Test
  void aPackIsForWhoAskedAndIsDeletedAfterADay() throws Exception {
    packs = packs(PLAIN);
    AuditPack pack = made(AUDITOR);

    assertThat(pack.state()).isEqualTo(AuditPack.State.READY);
    assertThat(pack.part()).isEqualTo(AuditPackMaker.Part.PROOFS);
    assertThat(Files.readString(pack.file())).isEqualTo("L1,L2");
    assertThat(packs.of(AUDITOR, pack.id())).contains(pack);
    assertThat(packs.of(caller("quality"), pack.id())).isEmpty();
    assertThat(packs.of(AUDITOR, "another")).isEmpty();

    hours.set(23);
    packs.deleteOld();
    assertThat(packs.of(AUDITOR, pack.id())).isPresent();
    hours.set(25);
    assertThat(packs.of(AUDITOR, pack.id())).isEmpty();
    packs.deleteOld();
    assertThat(pack.file()).doesNotExist();
  }

  @Test
  void theThirdOfAPersonTakesThePlaceOfTheOldest() {
    packs = packs(PLAIN);
    AuditPack first = made(AUDITOR);
    hours.set(1);
    AuditPack second = made(AUDITOR);
    AuditPack others = made(caller("quality"));
    hours.set(2);
    AuditPack third = made(AUDITOR);

    assertThat(packs.of(AUDITOR)).containsExactly(second, third);
    assertThat(first.file()).doesNotExist();
    assertThat(others.file()).exists();
  }

  @Test
  void oneIsMadeAtATimeAndAThirdThatWaitsIsRefused() {
    CountDownLatch goOn = new CountDownLatch(1);
    AtomicInteger atOnce = new AtomicInteger();
    AtomicInteger most = new AtomicInteger();
    packs =
        packs(
            (order, archive, progress) -> {
              most.accumulateAndGet(atOnce.incrementAndGet(), Math::max);
              goOn.await();
              atOnce.decrementAndGet();
            });
    AuditPack first = packs.order(order(AUDITOR)).orElseThrow();
    AuditPack second = packs.order(order(AUDITOR)).orElseThrow();
    until(() -> first.state() == AuditPack.State.MAKING);
    assertThat(second.state()).isEqualTo(AuditPack.State.WAITING);
    assertThat(packs.order(order(AUDITOR))).isEmpty();
    Optional<AuditPack> others = packs.order(order(caller("quality")));

    goOn.countDown();
    until(() -> second.isEnded() && others.orElseThrow().isEnded());
    assertThat(most.get()).isEqualTo(1);
  }

  @Test
  void whatFailsSaysSoAndLeavesNoFile() {
    packs =
        packs(
            (order, archive, progress) -> {
              archive.write(new byte[100_000]);
              throw new IOException("the disk is full");
            });
    AuditPack pack = made(AUDITOR);

    assertThat(pack.state()).isEqualTo(AuditPack.State.FAILED);
    assertThat(pack.file()).doesNotExist();
  }

  @Test
  void whatAnEarlierRunLeftIsRemoved() throws Exception {
    Files.writeString(folder.resolve("0.zip"), "left");
    packs = packs(PLAIN);

    try (Stream<Path> files = Files.list(folder)) {
      assertThat(files).isEmpty();
    }
  }

  private AuditPack made(Caller caller) {
    AuditPack pack = packs.order(order(caller)).orElseThrow();
    until(pack::isEnded);
    return pack;
  }

  private static AuditOrder order(Caller caller) {
    LotChoice choice =
        new LotChoice(List.of("L1", "L2"), Optional.empty(), Optional.empty(), Optional.empty());
    return new AuditOrder(caller, Language.ENGLISH, choice, 2, List.of("L1", "L2"), List.of());
  }

  private static Caller caller(String personId) {
    return new Caller(
        personId,
        personId,
        Set.of(Role.AUDITOR),
        Optional.empty(),
        Caller.Proof.SESSION,
        Optional.empty());
  }

  private AuditPacks packs(AuditPackMaker maker) {
    return new AuditPacks(
        maker,
        folder,
        new Clock() {
          @Override
          public ZoneId getZone() {
            return ZoneOffset.UTC;
          }

          @Override
          public Clock withZone(ZoneId zone) {
            return this;
          }

          @Override
          public Instant instant() {
            return Instant.EPOCH.plus(Duration.ofHours(hours.get()));
          }
        });
  }
}
