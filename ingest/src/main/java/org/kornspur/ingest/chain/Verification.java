package org.kornspur.ingest.chain;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.kornspur.ingest.chain.LogFinding.Kind;
import org.kornspur.ingest.chain.PartitionLog.Part;
import org.kornspur.ingest.seal.Hash;
import org.kornspur.ingest.seal.TrustedKeys;

/**
 * Walks records, links and checkpoints of a whole log and names the first place, in each partition,
 * that is not as it was signed.
 *
 * <p>The records are the evidence; links only help to say which record it is. So records under a
 * checkpoint whose links were damaged are still proved by the checkpoint alone.
 */
public final class Verification {

  private final TrustedKeys trusted;
  private final List<Checkpoint> keptElsewhere;
  private Map<Hash, List<ChainLink>> linksByContent;
  private List<PartitionLog> log;

  private Verification(TrustedKeys trusted, List<Checkpoint> keptElsewhere) {
    this.trusted = trusted;
    this.keptElsewhere = keptElsewhere;
  }

  /**
   * Verifies a log.
   *
   * @param log all partitions; one that only {@code keptElsewhere} speaks of is missing
   * @param trusted keys whose checkpoints count
   * @param keptElsewhere checkpoints that were handed out before; they show that a log was cut off
   *     together with its own checkpoints
   */
  public static List<PartitionReport> of(
      List<PartitionLog> log, TrustedKeys trusted, Collection<Checkpoint> keptElsewhere) {
    Map<Integer, PartitionLog> parts = new TreeMap<>();
    log.forEach(part -> parts.put(part.partition(), part));
    keptElsewhere.forEach(kept -> parts.computeIfAbsent(kept.partition(), PartitionLog::missing));
    Verification verification = new Verification(trusted, List.copyOf(keptElsewhere));
    verification.log = List.copyOf(parts.values());
    return verification.log.stream().map(verification::verify).toList();
  }

  private PartitionReport verify(PartitionLog part) {
    CheckpointWalk walk = new CheckpointWalk(part.partition(), trusted);
    List<Checkpoint> reliable =
        walk.reliable(
            part.checkpoints(),
            keptElsewhere.stream().filter(kept -> kept.partition() == part.partition()).toList());
    if (part.missing().contains(Part.RECORDS)) {
      List<LogFinding> findings = new ArrayList<>(List.of(MissingPart.records(part, reliable)));
      findings.addAll(walk.findings());
      return new PartitionReport(
          part.partition(), 0, 0, 0, 0, 0, reliable.size(), signedUntil(reliable), findings);
    }
    Map<Long, List<ChainLink>> bySequence =
        part.links().stream().collect(Collectors.groupingBy(ChainLink::sequence));
    List<LogRecord.Entry> chained = part.records();
    long begin = part.links().isEmpty() ? 0 : part.links().get(0).offset();
    if (part.links().isEmpty() || part.links().get(0).sequence() == 1) {
      chained = chained.stream().filter(record -> record.offset() >= begin).toList();
    }
    Alignment records = new Alignment(chained, part.links(), this::find);
    List<LogFinding> findings = new ArrayList<>();
    long signed = walkSigned(part, reliable, bySequence, records, findings);
    long unsigned = 0;
    if (findings.stream().noneMatch(finding -> finding.kind().touchesRecords())) {
      unsigned = walkTail(part, reliable, bySequence, records, findings);
    }
    if (findings.isEmpty()) {
      outOfOrder(part.links()).ifPresent(findings::add);
    }
    findings.addAll(walk.findings());
    findings.addAll(MissingPart.proofs(part, findings));
    boolean atEnd = findings.stream().noneMatch(finding -> finding.kind().touchesRecords());
    return new PartitionReport(
        part.partition(),
        part.records().size(),
        (long) part.records().size() - chained.size(),
        signed,
        unsigned,
        atEnd ? records.rest().size() : 0,
        reliable.size(),
        signedUntil(reliable),
        findings);
  }

  private static Optional<Instant> signedUntil(List<Checkpoint> reliable) {
    return reliable.isEmpty()
        ? Optional.empty()
        : Optional.of(reliable.get(reliable.size() - 1).signedAt());
  }

  /** Returns how many records are as they were signed. */
  private static long walkSigned(
      PartitionLog part,
      List<Checkpoint> reliable,
      Map<Long, List<ChainLink>> links,
      Alignment records,
      List<LogFinding> findings) {
    long after = 0;
    Hash hash = ChainLink.genesis(part.partition());
    for (Checkpoint checkpoint : reliable) {
      Optional<LogFinding> finding =
          new Segment(part.partition(), after, hash, checkpoint, links).check(records);
      if (finding.isPresent() && finding.get().kind().touchesRecords()) {
        findings.add(
            finding.get().kind() == Kind.RECORD_REMOVED && records.rest().isEmpty()
                ? MissingPart.tail(finding.get(), reliable, records.fitting())
                : finding.get());
        return after;
      }
      if (finding.isPresent() && findings.isEmpty()) {
        findings.add(finding.get());
      }
      after = checkpoint.sequence();
      hash = checkpoint.link();
    }
    return after;
  }

  /** What no checkpoint covers yet: returns how many records have a link that fits. */
  private static long walkTail(
      PartitionLog part,
      List<Checkpoint> reliable,
      Map<Long, List<ChainLink>> links,
      Alignment records,
      List<LogFinding> findings) {
    Checkpoint last = reliable.isEmpty() ? null : reliable.get(reliable.size() - 1);
    long signed = last == null ? 0 : last.sequence();
    Hash hash = last == null ? ChainLink.genesis(part.partition()) : last.link();
    long sequence = signed;
    while (links.containsKey(sequence + 1)) {
      Hash before = hash;
      Optional<ChainLink> link =
          links.get(sequence + 1).stream().filter(next -> next.follows(before)).findFirst();
      if (link.isEmpty()) {
        findings.add(unsignedLink(links.get(sequence + 1).get(0)));
        break;
      }
      Optional<LogFinding> misfit = records.fit(link.get());
      if (misfit.isPresent()) {
        findings.add(misfit.get());
        break;
      }
      sequence++;
      hash = link.get().link();
    }
    return sequence - signed;
  }

  private static LogFinding unsignedLink(ChainLink link) {
    return LogFinding.at(
        link,
        Kind.LINK_ALTERED,
        "a link that follows the one before; no checkpoint covers it yet",
        "link " + link.link());
  }

  private static Optional<LogFinding> outOfOrder(List<ChainLink> links) {
    long expected = 1;
    for (ChainLink link : links) {
      if (link.sequence() != expected) {
        return Optional.of(
            new LogFinding(
                link.sequence() > expected ? Kind.LINK_REMOVED : Kind.LINK_INSERTED,
                link.partition(),
                expected,
                link.offset(),
                link.factId(),
                "link " + expected + " here",
                "link " + link.sequence()));
      }
      expected++;
    }
    return Optional.empty();
  }

  private Optional<ChainLink> find(Hash content, int notInPartition) {
    if (linksByContent == null) {
      linksByContent =
          log.stream()
              .flatMap(part -> part.links().stream())
              .collect(Collectors.groupingBy(ChainLink::content));
    }
    return linksByContent.getOrDefault(content, List.of()).stream()
        .filter(link -> link.partition() != notInPartition)
        .findFirst();
  }
}
