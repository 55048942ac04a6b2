package org.kornspur.processors.gates;

import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.kornspur.contract.Blend;
import org.kornspur.contract.LotMass;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.dossier.Material;
import org.kornspur.processors.dossier.Report;
import org.kornspur.processors.finding.Aspect;
import org.kornspur.processors.finding.Evidence;
import org.kornspur.processors.finding.RuleFinding;
import org.kornspur.processors.gates.Findings.GateAspect;
import org.kornspur.processors.pedigree.Edge;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.processors.verdict.RuleNote;
import org.kornspur.processors.verdict.Verdict;

/**
 * By which book a lot is judged whose parts are of several. A technical mixture is judged by the
 * book of its female lots, and where a pollinator is of another that is told beside the standing.
 * Other parts of several books leave open by which the whole is judged. Beside a crop it is told
 * that seed sown was of another book: whether the authority takes that for equivalent is not known
 * here.
 *
 * <p>Common practice, no source: the seed that is harvested from a mixture is the female's.
 */
final class MixtureRulebooks {
  private static final GateAspect AT =
      GateAspect.of(Gate.COMPONENTS, "rulebooks of the parts", new Aspect.Rulebook());

  private MixtureRulebooks() {}

  /** What is owed where it is left open. */
  static Optional<Verdict> owed(Dossier dossier) {
    if (dossier.subject().kind() != Subject.Kind.LOT) {
      return Optional.empty();
    }
    Set<Subject> pollinators = pollinators(dossier);
    Set<String> books = new TreeSet<>();
    Set<String> factIds = new TreeSet<>();
    for (Edge edge : dossier.edgesIn()) {
      boolean decides =
          edge.by() != FactType.ADMIXTURE
              && !(edge.by() == FactType.BLEND && pollinators.contains(edge.parent()));
      if (decides) {
        bookOf(dossier, edge.parent()).ifPresent(books::add);
        factIds.add(edge.factId());
      }
    }
    return books.size() < 2
        ? Optional.empty()
        : Optional.of(
            Findings.of(AT, List.copyOf(factIds), new RuleFinding.SeveralBooks(List.copyOf(books)))
                .owed(new Evidence.OneRulebook()));
  }

  /** That a pollinator, or seed that was sown, is of another book. */
  static Optional<RuleNote> note(Dossier dossier) {
    boolean isCrop = dossier.subject().kind() == Subject.Kind.CROP;
    Stream<Subject> beside =
        isCrop ? dossier.edgesIn().stream().map(Edge::parent) : pollinators(dossier).stream();
    Optional<String> judgedBy = dossier.material().map(Material::rulebookId);
    List<String> others =
        beside
            .flatMap(lot -> bookOf(dossier, lot).stream())
            .filter(book -> !Optional.of(book).equals(judgedBy))
            .distinct()
            .sorted()
            .toList();
    return others.isEmpty()
        ? Optional.empty()
        : judgedBy.map(
            book ->
                new RuleNote(
                    Optional.of(Gate.COMPONENTS),
                    (isCrop
                            ? new RuleFinding.SownOfOtherBooks(book, others)
                            : new RuleFinding.JudgedByBookOfFemale(book, others))
                        .coded()));
  }

  private static Set<Subject> pollinators(Dossier dossier) {
    return dossier.facts(Blend.class).stream()
        .filter(blend -> Subject.lot(blend.getBlendLotId()).equals(dossier.subject()))
        .flatMap(blend -> blend.getPollinators().stream())
        .map(LotMass::getLotId)
        .map(Subject::lot)
        .collect(Collectors.toCollection(TreeSet::new));
  }

  private static Optional<String> bookOf(Dossier dossier, Subject lot) {
    return dossier.parent(lot).flatMap(Report.FromParent::material).map(Material::rulebookId);
  }
}
