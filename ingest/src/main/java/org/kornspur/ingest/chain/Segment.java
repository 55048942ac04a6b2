package org.kornspur.ingest.chain;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.kornspur.ingest.chain.LogFinding.Kind;
import org.kornspur.ingest.intake.CountedNoun;
import org.kornspur.ingest.seal.Hash;

/**
 * The links between two checkpoints that can be relied on. Links are proved from the first
 * checkpoint forward, and from the second one back; what is left in between has no proof of its
 * own, and is decided by the records.
 */
final class Segment {

  private final int partition;
  private final long after;
  private final Hash afterHash;
  private final Checkpoint until;
  private final Map<Long, List<ChainLink>> links;

  /**
   * @param after sequence of the link that the first checkpoint signed; 0 for the genesis
   * @param links of the partition by their sequence; more than one where some were inserted
   */
  Segment(
      int partition,
      long after,
      Hash afterHash,
      Checkpoint until,
      Map<Long, List<ChainLink>> links) {
    this.partition = partition;
    this.after = after;
    this.afterHash = afterHash;
    this.until = until;
    this.links = links;
  }

  /** What is wrong with records or links first; nothing where all is as it was signed. */
  Optional<LogFinding> check(Alignment records) {
    List<ChainLink> forward = forward();
    long forwardUntil = after + forward.size();
    Hash forwardHash = forward.isEmpty() ? afterHash : forward.get(forward.size() - 1).link();
    if (forwardHash.equals(until.link())) {
      return fit(records, forward);
    }
    List<ChainLink> byRecords = byRecords(records.rest());
    if (!byRecords.isEmpty()) {
      records.pass(byRecords.size());
      return byRecords.stream()
          .filter(link -> !at(link.sequence()).contains(link))
          .findFirst()
          .map(this::brokenLink);
    }
    Optional<LogFinding> before = fit(records, forward);
    if (before.isPresent()) {
      return before;
    }
    if (forwardUntil == until.sequence() || comesToTheSignedPlace(forward)) {
      return Optional.of(remade(after + 1, forward.get(0)));
    }
    List<ChainLink> backward = backward(forwardUntil);
    Optional<LogFinding> within = gap(records, forwardUntil, forwardHash, backward);
    if (within.isPresent() && within.get().kind().touchesRecords()) {
      return within;
    }
    Optional<LogFinding> behind = fit(records, backward);
    return behind.isPresent() ? behind : within;
  }

  /** The links as the records give them; none where they do not lead to the checkpoint. */
  private List<ChainLink> byRecords(List<LogRecord.Entry> rest) {
    List<ChainLink> made = new ArrayList<>();
    Hash hash = afterHash;
    for (LogRecord.Entry record : rest) {
      ChainLink link = ChainLink.after(hash, after + 1 + made.size(), record);
      made.add(link);
      hash = link.link();
      if (link.sequence() == until.sequence()) {
        return hash.equals(until.link()) ? made : List.of();
      }
    }
    return List.of();
  }

  private static Optional<LogFinding> fit(Alignment records, List<ChainLink> proved) {
    for (ChainLink link : proved) {
      Optional<LogFinding> misfit = records.fit(link);
      if (misfit.isPresent()) {
        return misfit;
      }
    }
    return Optional.empty();
  }

  /** Links that follow one another from the first checkpoint on. */
  private List<ChainLink> forward() {
    List<ChainLink> proved = new ArrayList<>();
    Hash hash = afterHash;
    for (long sequence = after + 1; sequence <= until.sequence(); sequence++) {
      Optional<ChainLink> next = following(sequence, hash);
      if (next.isEmpty()) {
        break;
      }
      proved.add(next.get());
      hash = next.get().link();
    }
    return proved;
  }

  /** Links made again round a removed record come to the place that was signed in fewer steps. */
  private boolean comesToTheSignedPlace(List<ChainLink> forward) {
    return !forward.isEmpty() && forward.get(forward.size() - 1).offset() >= until.offset();
  }

  private Optional<ChainLink> following(long sequence, Hash hash) {
    return at(sequence).stream().filter(link -> link.follows(hash)).findFirst();
  }

  /** Links that lead to the second checkpoint, each with one before it that it follows. */
  private List<ChainLink> backward(long forwardUntil) {
    List<ChainLink> proved = new ArrayList<>();
    Hash hash = until.link();
    for (long sequence = until.sequence(); sequence > forwardUntil + 1; sequence--) {
      Hash wanted = hash;
      Optional<ChainLink> link =
          at(sequence).stream()
              .filter(candidate -> candidate.link().equals(wanted))
              .filter(candidate -> provedBefore(candidate).isPresent())
              .findFirst();
      if (link.isEmpty()) {
        break;
      }
      proved.add(0, link.get());
      hash = provedBefore(link.get()).orElseThrow();
    }
    return proved;
  }

  /** The hash of the link before, where a link is there that says it. */
  private Optional<Hash> provedBefore(ChainLink link) {
    return at(link.sequence() - 1).stream().map(ChainLink::link).filter(link::follows).findFirst();
  }

  /** Links without proof: do the records lead from the hash before to the hash behind? */
  private Optional<LogFinding> gap(
      Alignment records, long before, Hash beforeHash, List<ChainLink> behind) {
    long gapUntil = until.sequence() - behind.size();
    Hash gapHash =
        behind.isEmpty() ? until.link() : provedBefore(behind.get(0)).orElse(until.link());
    int width = Math.toIntExact(gapUntil - before);
    List<LogRecord.Entry> rest = records.rest();
    Hash hash = beforeHash;
    List<ChainLink> made = new ArrayList<>();
    for (int i = 0; i < width && i < rest.size(); i++) {
      made.add(ChainLink.after(hash, before + 1 + i, rest.get(i)));
      hash = made.get(i).link();
    }
    if (width <= rest.size() && hash.equals(gapHash)) {
      records.pass(width);
      return Optional.of(brokenLink(made.get(0)));
    }
    long end = behind.isEmpty() ? until.offset() + 1 : behind.get(0).offset();
    List<LogRecord.Entry> there = rest.stream().takeWhile(record -> record.offset() < end).toList();
    Optional<ChainLink> named = at(before + 1).stream().findFirst();
    if (there.size() < width) {
      return Optional.of(removedWithLink(before + 1, width - there.size(), named, there));
    }
    if (there.size() > width) {
      return Optional.of(
          new LogFinding(
              Kind.RECORD_INSERTED,
              partition,
              0,
              there.get(0).offset(),
              there.get(0).factId(),
              CountedNoun.of(width, "record( that leads|s that lead) to the hash ") + gapHash,
              there.size() + " records, from this one on"));
    }
    LogRecord.Entry first = there.get(0);
    return Optional.of(
        new LogFinding(
            width == 1 ? Kind.RECORD_ALTERED : Kind.CHAIN_REMADE,
            partition,
            before + 1,
            first.offset(),
            first.factId(),
            "the record or records that lead to the hash " + gapHash + " of link " + gapUntil,
            "content " + first.content() + ", and a link that does not follow"));
  }

  private LogFinding removedWithLink(
      long sequence, int howMany, Optional<ChainLink> named, List<LogRecord.Entry> there) {
    long offset = named.map(ChainLink::offset).orElse(there.isEmpty() ? -1 : there.get(0).offset());
    return new LogFinding(
        Kind.RECORD_REMOVED,
        partition,
        sequence,
        offset,
        named.map(ChainLink::factId).orElse(""),
        "the record of link " + sequence + ", under a checkpoint that signs " + until.sequence(),
        CountedNoun.of(howMany, "record(s)") + " too few before link " + (until.sequence() + 1));
  }

  private LogFinding brokenLink(ChainLink right) {
    List<ChainLink> there = at(right.sequence());
    return new LogFinding(
        there.isEmpty() ? Kind.LINK_REMOVED : Kind.LINK_ALTERED,
        partition,
        right.sequence(),
        right.offset(),
        right.factId(),
        "link " + right.link() + ", to which the record and the checkpoint lead",
        there.isEmpty() ? "none" : "link " + there.get(0).link());
  }

  private LogFinding remade(long sequence, ChainLink first) {
    return new LogFinding(
        Kind.CHAIN_REMADE,
        partition,
        sequence,
        first.offset(),
        first.factId(),
        "links from here to " + until.sequence() + " that lead to the signed hash " + until.link(),
        "links that follow one another and lead to another hash");
  }

  private List<ChainLink> at(long sequence) {
    return links.getOrDefault(sequence, List.of());
  }
}
