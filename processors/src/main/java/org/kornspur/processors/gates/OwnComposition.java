package org.kornspur.processors.gates;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.kornspur.contract.BlendComposition;
import org.kornspur.contract.Sampling;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.statement.Coded;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.dossier.InheritedFinding;
import org.kornspur.processors.finding.BlendFinding;
import org.kornspur.processors.standards.Rulebook;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.processors.verdict.Verdict;

/**
 * A sample of a mixture in which kernels were told apart, drawn of all of the lot, that shows that
 * the share holds. It says what the lot is, whatever was done with the mixture before. Common
 * practice, no source.
 */
public final class OwnComposition {
  private static final String GRADED = Coded.codeOf(BlendFinding.Graded.class);

  private OwnComposition() {}

  /** Whether it ends what is owed for a grading of seed that this lot was made of. */
  public static boolean settles(
      InheritedFinding trouble,
      Dossier lot,
      Optional<? extends Rulebook> rulebook,
      List<Verdict> judged) {
    return trouble.gate() == Gate.BLEND_SHARE
        && trouble.weight() == InheritedFinding.Weight.OWED
        && trouble.findings().stream().anyMatch(finding -> finding.code().equals(GRADED))
        && lot.subject().kind() == Subject.Kind.LOT
        && rulebook.filter(book -> holds(lot, book, judged)).isPresent();
  }

  static boolean holds(Dossier lot, Rulebook rulebook, List<Verdict> judged) {
    return holdsAfter(LocalDate.MIN, lot, rulebook, judged);
  }

  /** Whether such a sample was drawn on a later day than this. */
  static boolean holdsAfter(LocalDate day, Dossier lot, Rulebook rulebook, List<Verdict> judged) {
    List<Sampling> drawn =
        SamplingGate.good(lot, rulebook).stream()
            .filter(sampling -> FactType.dayOf(sampling).isAfter(day))
            .toList();
    Set<String> ofSamples =
        lot.facts(BlendComposition.class).stream()
            .filter(counted -> SamplingGate.isOfOne(drawn, counted))
            .map(FactType::idOf)
            .collect(Collectors.toSet());
    return judged.stream()
        .filter(verdict -> verdict.gate() == Gate.BLEND_SHARE)
        .filter(Verdict.Met.class::isInstance)
        .anyMatch(verdict -> verdict.factIds().stream().anyMatch(ofSamples::contains));
  }
}
