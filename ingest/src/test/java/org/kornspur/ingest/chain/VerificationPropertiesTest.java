package org.kornspur.ingest.chain;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Collections;
import java.util.List;
import java.util.Random;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.ShrinkingMode;
import net.jqwik.api.Tag;
import net.jqwik.api.constraints.IntRange;
import org.kornspur.ingest.chain.InventedLog.Part;
import org.kornspur.ingest.chain.LogFinding.Kind;
import org.kornspur.ingest.seal.SigningKey;
import org.kornspur.ingest.seal.TrustedKeys;

/** Whatever is done to a log of any shape, the first place of it is named. */
@Tag("slow")
class VerificationPropertiesTest {
  private static final int TRIES = 60;
  private static final TrustedKeys TRUSTED = TrustedKeys.of(InventedLog.KEY.publicKey());

  private InventedLog log;
  private Part part;

  @Property(tries = TRIES, shrinking = ShrinkingMode.OFF)
  void aLogThatNobodyTouchedIsAsItWasSigned(
      @ForAll Random random,
      @ForAll @IntRange(min = 0, max = 40) int records,
      @ForAll @IntRange(min = 1, max = 9) int n) {
    make(random, records, n);
    for (PartitionReport report : verify()) {
      assertThat(report.findings()).isEmpty();
      assertThat(report.signed()).isEqualTo(records - records % n);
      assertThat(report.unsigned()).isEqualTo(records % n);
      assertThat(report.unchained()).isZero();
      assertThat(report.beforeChain()).isZero();
    }
  }

  @Property(tries = TRIES, shrinking = ShrinkingMode.OFF)
  void aFlippedBitIsNamed(@ForAll Random random, @ForAll @IntRange(min = 3, max = 40) int records) {
    make(random, records, 5);
    int i = random.nextInt(records);
    LogRecord before = part.records.get(i);
    LogRecord after = InventedLog.flipped(random, before);
    part.records.set(i, after);
    LogFinding finding = only();
    assertThat(finding.kind()).isEqualTo(Kind.RECORD_ALTERED);
    assertThat(finding.offset()).isEqualTo(before.offset());
    assertThat(finding.sequence()).isEqualTo(i + 1);
    assertThat(finding.factId()).isEqualTo(before.factId());
    assertThat(finding.expected()).contains(before.content().toString());
    assertThat(finding.found()).contains(after.content().toString());
  }

  @Property(tries = TRIES, shrinking = ShrinkingMode.OFF)
  void aDroppedRecordIsNamed(
      @ForAll Random random, @ForAll @IntRange(min = 3, max = 40) int records) {
    make(random, records, 5);
    int i = random.nextInt(records);
    LogRecord dropped = part.records.remove(i);
    LogFinding finding = only();
    assertThat(finding.kind()).isEqualTo(Kind.RECORD_REMOVED);
    assertThat(finding.offset()).isEqualTo(dropped.offset());
    assertThat(finding.sequence()).isEqualTo(i + 1);
  }

  /** The attacker also closes the gap that the dropped record leaves in the offsets. */
  @Property(tries = TRIES, shrinking = ShrinkingMode.OFF)
  void aDroppedRecordIsNamedThoughTheRestMovesUp(
      @ForAll Random random, @ForAll @IntRange(min = 5, max = 40) int records) {
    make(random, records, 5);
    int i = random.nextInt(records - 1);
    LogRecord dropped = part.records.get(i);
    for (int next = i; next + 1 < part.records.size(); next++) {
      part.records.set(
          next,
          InventedLog.at(part.records.get(next + 1), part.number, part.records.get(next).offset()));
    }
    part.records.remove(part.records.size() - 1);
    LogFinding finding = only();
    assertThat(finding.sequence()).isGreaterThanOrEqualTo(i + 1);
    if (unique(dropped)) {
      assertThat(finding.kind()).isEqualTo(Kind.RECORD_REMOVED);
      assertThat(finding.factId()).isEqualTo(dropped.factId());
      assertThat(finding.sequence()).isEqualTo(i + 1);
    }
  }

  @Property(tries = TRIES, shrinking = ShrinkingMode.OFF)
  void anInsertedRecordIsNamed(
      @ForAll Random random, @ForAll @IntRange(min = 3, max = 40) int records) {
    make(random, records, 5);
    int i = 1 + random.nextInt(records - 1);
    long offset = part.records.get(i).offset();
    LogRecord inserted = InventedLog.foreign(random, part.number, offset);
    for (int later = i; later < part.records.size(); later++) {
      LogRecord record = part.records.get(later);
      part.records.set(later, InventedLog.at(record, part.number, record.offset() + 1));
    }
    part.records.add(i, inserted);
    LogFinding finding = only();
    assertThat(finding.kind()).isEqualTo(Kind.RECORD_INSERTED);
    assertThat(finding.offset()).isEqualTo(offset);
    assertThat(finding.factId()).isEqualTo(inserted.factId());
  }

  @Property(tries = TRIES, shrinking = ShrinkingMode.OFF)
  void exchangedRecordsAreNamed(
      @ForAll Random random, @ForAll @IntRange(min = 3, max = 40) int records) {
    make(random, records, 5);
    int i = random.nextInt(records - 1);
    int j = i + 1 + random.nextInt(records - i - 1);
    LogRecord first = part.records.get(i);
    LogRecord second = part.records.get(j);
    if (first.content().equals(second.content())) {
      return; // equal records may stand for each other
    }
    part.records.set(i, InventedLog.at(second, part.number, first.offset()));
    part.records.set(j, InventedLog.at(first, part.number, second.offset()));
    LogFinding finding = only();
    assertThat(finding.kind()).isEqualTo(Kind.RECORD_REORDERED);
    assertThat(finding.sequence()).isEqualTo(i + 1);
    assertThat(finding.offset()).isEqualTo(first.offset());
    assertThat(finding.factId()).isEqualTo(second.factId());
  }

  @Property(tries = TRIES, shrinking = ShrinkingMode.OFF)
  void recordsExchangedBetweenPartitionsAreNamedInBoth(
      @ForAll Random random, @ForAll @IntRange(min = 3, max = 40) int records) {
    make(random, records, 5);
    Part other = log.parts.get(1);
    int i = random.nextInt(records);
    int j = random.nextInt(records);
    LogRecord here = part.records.get(i);
    LogRecord there = other.records.get(j);
    part.records.set(i, InventedLog.at(there, 0, here.offset()));
    other.records.set(j, InventedLog.at(here, 1, there.offset()));
    List<PartitionReport> reports = verify();
    for (int partition = 0; partition < 2; partition++) {
      LogFinding finding = reports.get(partition).findings().get(0);
      assertThat(finding.kind()).isEqualTo(Kind.RECORD_REORDERED);
      assertThat(finding.sequence()).isEqualTo(partition == 0 ? i + 1 : j + 1);
      assertThat(finding.found()).contains("partition " + (1 - partition));
    }
  }

  /** Records alone, or with their links: what a checkpoint covers is missed. */
  @Property(tries = TRIES, shrinking = ShrinkingMode.OFF)
  void aTailThatWasCutOffIsNamedWhereACheckpointCoversIt(
      @ForAll Random random,
      @ForAll @IntRange(min = 6, max = 40) int records,
      @ForAll boolean linksToo) {
    make(random, records, 5);
    int kept = random.nextInt(part.signed());
    LogRecord firstCut = part.records.get(kept);
    part.records.subList(kept, records).clear();
    if (linksToo) {
      part.links.subList(kept, records).clear();
    }
    LogFinding finding = only();
    assertThat(finding.kind()).isEqualTo(Kind.RECORD_REMOVED);
    assertThat(finding.sequence()).isEqualTo(kept + 1);
    if (!linksToo) {
      assertThat(finding.offset()).isEqualTo(firstCut.offset());
    }
  }

  /** Cut off with its links and checkpoints, only a checkpoint that was handed out tells of it. */
  @Property(tries = TRIES, shrinking = ShrinkingMode.OFF)
  void aTailCutOffWithItsCheckpointsIsNamedByOneThatWasHandedOut(
      @ForAll Random random, @ForAll @IntRange(min = 10, max = 40) int records) {
    make(random, records, 5);
    Checkpoint handedOut = part.checkpoints.get(part.checkpoints.size() - 1);
    int kept = (int) handedOut.sequence() - 5;
    part.records.subList(kept, records).clear();
    part.links.subList(kept, records).clear();
    part.checkpoints.remove(part.checkpoints.size() - 1);
    assertThat(verify()).allSatisfy(report -> assertThat(report.findings()).isEmpty());

    List<LogFinding> findings =
        Verification.of(log.closed(), TRUSTED, List.of(handedOut)).get(0).findings();
    assertThat(findings)
        .extracting(LogFinding::kind)
        .containsExactly(Kind.RECORD_REMOVED, Kind.CHECKPOINT_REMOVED);
    assertThat(findings.get(0).sequence()).isEqualTo(kept + 1);
  }

  @Property(tries = TRIES, shrinking = ShrinkingMode.OFF)
  void checkpointsThatWereCutOutAreNamed(
      @ForAll Random random, @ForAll @IntRange(min = 16, max = 40) int records) {
    make(random, records, 5);
    int i = random.nextInt(part.checkpoints.size() - 1);
    Checkpoint cut = part.checkpoints.remove(i);
    LogFinding finding = only();
    assertThat(finding.kind()).isEqualTo(Kind.CHECKPOINT_REMOVED);
    assertThat(finding.expected()).contains("checkpoint " + cut.number());
  }

  /** Whoever has no key can make links again, but no checkpoint that fits them. */
  @Property(tries = TRIES, shrinking = ShrinkingMode.OFF)
  void aChainMadeAnewWithoutTheKeyIsFound(
      @ForAll Random random,
      @ForAll @IntRange(min = 6, max = 40) int records,
      @ForAll @IntRange(min = 0, max = 2) int how) {
    make(random, records, 5);
    int i = random.nextInt(part.signed());
    switch (how) {
      case 0 -> part.records.set(i, InventedLog.flipped(random, part.records.get(i)));
      case 1 -> part.records.remove(i);
      default ->
          part.records.add(
              i, InventedLog.foreign(random, part.number, part.records.get(i).offset()));
    }
    part.remakeLinks();
    LogFinding finding = only();
    assertThat(finding.kind().touchesRecords()).isTrue();
    long firstOfSegment = (i / 5) * 5L + 1;
    assertThat(finding.sequence()).isBetween(firstOfSegment, i + 1L);
    assertThat(verify().get(0).signed()).isEqualTo(firstOfSegment - 1);
  }

  @Property(tries = TRIES, shrinking = ShrinkingMode.OFF)
  void aChainSignedAnewWithAnotherKeyIsNotTrusted(
      @ForAll Random random, @ForAll @IntRange(min = 6, max = 40) int records) {
    make(random, records, 5);
    SigningKey own = SigningKey.random();
    part.records.remove(0);
    part.remakeLinks();
    part.checkpoints.clear();
    ChainHead head = ChainHead.start(part.number);
    for (ChainLink link : part.links) {
      head = head.with(link);
    }
    part.checkpoints.add(head.sign(own, java.time.Instant.EPOCH));
    assertThat(verify().get(0).findings())
        .extracting(LogFinding::kind)
        .containsExactly(Kind.UNKNOWN_KEY);
    assertThat(verify().get(0).signed()).isZero();
  }

  @Property(tries = TRIES, shrinking = ShrinkingMode.OFF)
  void aChangedCheckpointHasNoSignatureThatFits(
      @ForAll Random random, @ForAll @IntRange(min = 6, max = 40) int records) {
    make(random, records, 5);
    int i = random.nextInt(part.checkpoints.size());
    Checkpoint was = part.checkpoints.get(i);
    part.checkpoints.set(
        i,
        new Checkpoint(
            was.partition(),
            was.number(),
            was.sequence(),
            was.offset(),
            part.links.get(0).content(),
            was.previous(),
            was.signedAt(),
            was.keyId(),
            was.publicKey(),
            was.signature()));
    LogFinding finding = only();
    assertThat(finding.kind()).isEqualTo(Kind.BAD_SIGNATURE);
    assertThat(finding.sequence()).isEqualTo(was.number());
  }

  /** Records under a checkpoint are proved by it alone, whatever was done to the links. */
  @Property(tries = TRIES, shrinking = ShrinkingMode.OFF)
  void damagedLinksAreToldFromDamagedRecords(
      @ForAll Random random,
      @ForAll @IntRange(min = 6, max = 40) int records,
      @ForAll @IntRange(min = 0, max = 3) int how) {
    make(random, records, 5);
    int i = random.nextInt(part.signed() - 1);
    ChainLink link = part.links.get(i);
    switch (how) {
      case 0 -> part.links.remove(i);
      case 1 ->
          part.links.set(
              i,
              new ChainLink(
                  link.partition(),
                  link.sequence(),
                  link.offset(),
                  link.factId(),
                  InventedLog.foreign(random, 0, 0).content(),
                  link.link()));
      case 2 -> Collections.swap(part.links, i, i + 1);
      default -> part.links.add(i, link);
    }
    LogFinding finding = only();
    assertThat(finding.kind().touchesRecords()).isFalse();
    assertThat(finding.sequence()).isBetween(i + 1L, i + 2L);
    assertThat(verify().get(0).signed()).isEqualTo(part.signed());
  }

  /** Record and link go together, with no link made again. */
  @Property(tries = TRIES, shrinking = ShrinkingMode.OFF)
  void aRecordRemovedOrAlteredWithItsLinkIsNamed(
      @ForAll Random random,
      @ForAll @IntRange(min = 6, max = 40) int records,
      @ForAll boolean remove) {
    make(random, records, 5);
    int i = random.nextInt(part.signed());
    LogRecord was = part.records.get(i);
    if (remove) {
      part.records.remove(i);
      part.links.remove(i);
    } else {
      LogRecord altered = InventedLog.flipped(random, was);
      part.records.set(i, altered);
      ChainLink link = part.links.get(i);
      part.links.set(
          i,
          new ChainLink(
              link.partition(),
              link.sequence(),
              link.offset(),
              link.factId(),
              altered.content(),
              link.link()));
    }
    LogFinding finding = only();
    assertThat(finding.kind()).isEqualTo(remove ? Kind.RECORD_REMOVED : Kind.RECORD_ALTERED);
    assertThat(finding.sequence()).isEqualTo(i + 1);
  }

  private void make(Random random, int records, int checkpointEvery) {
    log = new InventedLog(random, 2, records, checkpointEvery);
    part = log.parts.get(0);
  }

  private boolean unique(LogRecord record) {
    return part.links.stream().filter(link -> link.content().equals(record.content())).count() == 1;
  }

  private List<PartitionReport> verify() {
    return Verification.of(log.closed(), TRUSTED, List.of());
  }

  /** The one finding about the partition that was tampered with; the others are intact. */
  private LogFinding only() {
    List<PartitionReport> reports = verify();
    assertThat(reports.subList(1, reports.size()))
        .allSatisfy(report -> assertThat(report.findings()).isEmpty());
    assertThat(reports.get(0).findings()).hasSize(1);
    assertThat(reports.get(0).findings().get(0).partition()).isEqualTo(0);
    return reports.get(0).findings().get(0);
  }
}
