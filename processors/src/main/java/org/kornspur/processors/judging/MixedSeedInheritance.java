package org.kornspur.processors.judging;

import java.util.List;
import java.util.stream.Stream;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.statement.Coded;
import org.kornspur.ingest.statement.Value;
import org.kornspur.ingest.statement.Value.Amount;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.dossier.InheritedFinding;
import org.kornspur.processors.finding.LotFinding;
import org.kornspur.processors.gates.SameSeed;
import org.kornspur.processors.pedigree.Edge;
import org.kornspur.processors.verdict.Gate;

/**
 * Seed that was moved and is still what it was. What one part failed is not gone when it lies among
 * other seed: the whole carries it, and shows which share it is.
 *
 * <p>Common practice, no source: only cleaning and a new sample make a failed lot another.
 */
final class MixedSeedInheritance {
  private static final String SHARE = Coded.codeOf(LotFinding.FailedShare.class);

  private MixedSeedInheritance() {}

  /** Whether seed of the parent lies in this lot as it was, for what a gate found of it. */
  static boolean isSameSeed(Gate gate, Dossier lot, Subject parent) {
    return lot.edgesIn().stream()
        .filter(edge -> edge.parent().equals(parent))
        .anyMatch(edge -> SameSeed.isMovedBy(edge, gate, lot));
  }

  /** The trouble with the share of this lot that failed; all of it needs no saying. */
  static InheritedFinding withShare(InheritedFinding trouble, Dossier lot, Subject parent) {
    if (trouble.gate().reach() != Gate.Reach.UNTIL_CONDITIONED
        || lot.subject().kind() == Subject.Kind.CROP
        || SownSeed.wasSown(trouble)
        || trouble.weight() == InheritedFinding.Weight.OWED) {
      return trouble;
    }
    double ofParent = shareOf(trouble) * shareOf(parent, lot);
    Stream<Coded> findings =
        trouble.findings().stream().filter(finding -> !finding.code().equals(SHARE));
    Stream<Coded> share =
        ofParent < 1
            ? Stream.of(new LotFinding.FailedShare(Amount.percent(100 * ofParent)).coded())
            : Stream.empty();
    return trouble.with(Stream.concat(findings, share).toList());
  }

  private static double shareOf(Subject parent, Dossier lot) {
    List<Edge> in = lot.edgesIn();
    double allKg = in.stream().mapToDouble(Edge::massKg).sum();
    double fromParentKg =
        in.stream().filter(edge -> edge.parent().equals(parent)).mapToDouble(Edge::massKg).sum();
    return allKg > 0 ? fromParentKg / allKg : 1;
  }

  /** Share of the parent that has it, by what the parent says. */
  private static double shareOf(InheritedFinding trouble) {
    return trouble.findings().stream()
        .filter(finding -> finding.code().equals(SHARE))
        .flatMap(finding -> finding.argument("share").stream())
        .filter(Value.Amount.class::isInstance)
        .mapToDouble(share -> ((Value.Amount) share).number() / 100)
        .findFirst()
        .orElse(1);
  }
}
