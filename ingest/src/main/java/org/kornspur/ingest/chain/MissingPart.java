package org.kornspur.ingest.chain;

import java.util.ArrayList;
import java.util.List;
import org.kornspur.ingest.chain.LogFinding.Kind;
import org.kornspur.ingest.chain.PartitionLog.Part;
import org.kornspur.ingest.intake.CountedNoun;

/** What is said of a partition that is not there at all, or that ends too early. */
final class MissingPart {

  private MissingPart() {}

  /** The records are missing as a whole; links and checkpoints say how many they were. */
  static LogFinding records(PartitionLog part, List<Checkpoint> reliable) {
    List<ChainLink> links = part.links();
    long chained = links.isEmpty() ? 0 : links.get(links.size() - 1).sequence();
    long signed = signed(reliable);
    return new LogFinding(
        Kind.PARTITION_REMOVED,
        part.partition(),
        0,
        -1,
        "",
        signed + chained == 0
            ? "its records; how many is not known, as no checkpoint or link of it is there"
            : CountedNoun.of(signed, "signed record(s)")
                + (chained > signed ? " and " + (chained - signed) + " not signed yet" : ""),
        "none of its records");
  }

  /** Links or checkpoints are missing as a whole, and nothing else tells of it. */
  static List<LogFinding> proofs(PartitionLog part, List<LogFinding> known) {
    List<LogFinding> findings = new ArrayList<>();
    add(findings, known, part, Part.LINKS, Kind.LINK_REMOVED, "the links of the partition");
    add(
        findings,
        known,
        part,
        Part.CHECKPOINTS,
        Kind.CHECKPOINT_REMOVED,
        "the checkpoints of the partition");
    return findings;
  }

  private static void add(
      List<LogFinding> findings,
      List<LogFinding> known,
      PartitionLog part,
      Part what,
      Kind kind,
      String expected) {
    if (part.missing().contains(what) && known.stream().noneMatch(one -> one.kind() == kind)) {
      findings.add(new LogFinding(kind, part.partition(), 0, -1, "", expected, "none"));
    }
  }

  /** A log that fits as far as it goes, and ends before what is signed. */
  static LogFinding tail(LogFinding first, List<Checkpoint> reliable, long there) {
    return first.found(
        ("%s, where %s missing: cut off, or not in a copy that was taken while they were "
                + "written")
            .formatted(
                first.found(),
                CountedNoun.of(signed(reliable) - there, "signed record(s) (is|are)")));
  }

  private static long signed(List<Checkpoint> reliable) {
    return reliable.isEmpty() ? 0 : reliable.get(reliable.size() - 1).sequence();
  }
}
