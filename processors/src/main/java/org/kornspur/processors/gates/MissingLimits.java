package org.kornspur.processors.gates;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import java.util.function.Predicate;
import java.util.stream.Stream;
import org.kornspur.contract.Category;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.finding.Advice;
import org.kornspur.processors.finding.Aspect;
import org.kornspur.processors.finding.Evidence;
import org.kornspur.processors.finding.Reference;
import org.kornspur.processors.finding.RuleFinding;
import org.kornspur.processors.gates.Findings.GateAspect;
import org.kornspur.processors.standards.Quantity;
import org.kornspur.processors.standards.Rulebook;
import org.kornspur.processors.standards.RulebookAnswer;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.processors.verdict.RuleNote;
import org.kornspur.processors.verdict.Verdict;

/**
 * Where a rulebook gives no limit. If it says that it asks for nothing, that is noted beside the
 * standing and counts as nothing; if it has no line at all, evidence is owed, for nobody knows what
 * it asks for. Neither is ever met.
 */
public final class MissingLimits {

  private MissingLimits() {}

  /** Evidence that a gate owes because the book has no line. */
  static List<Verdict> owed(Dossier dossier, Rulebook rulebook, Gate gate) {
    return cells(dossier, rulebook, demand -> demand.gate() == gate)
        .filter(Cell::isSilent)
        .<Verdict>map(Cell::owed)
        .toList();
  }

  /**
   * What the book says beside its limits: where it asks for nothing, and what it judges as what.
   */
  public static List<RuleNote> notes(Dossier dossier, Rulebook rulebook) {
    List<RuleNote> notes = new ArrayList<>();
    dossier
        .material()
        .flatMap(
            material ->
                dossier.judgedOn().flatMap(on -> rulebook.judgedAs(material.category(), on)))
        .ifPresent(
            as ->
                notes.add(
                    new RuleNote(
                        Optional.empty(),
                        new RuleFinding.JudgedAs(as.category(), as.as(), Reference.of(as.source()))
                            .coded())));
    MixtureRulebooks.note(dossier).ifPresent(notes::add);
    cells(dossier, rulebook, demand -> true)
        .flatMap(cell -> cell.note().stream())
        .forEach(notes::add);
    return List.copyOf(notes);
  }

  private static Stream<Cell> cells(
      Dossier dossier, Rulebook rulebook, Predicate<RequiredLimit> isAsked) {
    Stream<Cell> ofCrop =
        SeedCrop.of(dossier, rulebook).stream()
            .flatMap(
                crop ->
                    RequiredLimits.of(crop).stream()
                        .filter(isAsked)
                        .map(
                            demand ->
                                Cell.of(
                                    demand,
                                    rulebook,
                                    crop.declaration().getCategory(),
                                    List.of(crop.declarationId()),
                                    crop::answer)));
    Stream<Cell> ofLot =
        SeedLot.of(dossier, rulebook).stream()
            .flatMap(
                lot ->
                    RequiredLimits.of(lot).stream()
                        .filter(isAsked)
                        .map(
                            demand ->
                                Cell.of(
                                    demand,
                                    rulebook,
                                    lot.material().category(),
                                    List.of(),
                                    lot::answer)));
    return Stream.concat(ofCrop, ofLot);
  }

  /** One demand with what the book answers. */
  private record Cell(
      RequiredLimit demand,
      Rulebook rulebook,
      Category category,
      List<String> factIds,
      List<Quantity> silent,
      Optional<Reference> nothing) {

    static Cell of(
        RequiredLimit demand,
        Rulebook rulebook,
        Category category,
        List<String> factIds,
        Function<Quantity, RulebookAnswer> book) {
      List<RulebookAnswer> answers = demand.anyOf().stream().map(book).toList();
      boolean limited = answers.stream().anyMatch(answer -> answer.limit().isPresent());
      List<Quantity> silent =
          limited
              ? List.of()
              : demand.anyOf().stream()
                  .filter(quantity -> book.apply(quantity).isSilent())
                  .toList();
      Optional<Reference> nothing =
          limited || !silent.isEmpty()
              ? Optional.empty()
              : answers.stream()
                  .flatMap(answer -> answer.nothing().stream())
                  .map(Reference::of)
                  .findFirst();
      return new Cell(demand, rulebook, category, factIds, silent, nothing);
    }

    boolean isSilent() {
      return !silent.isEmpty();
    }

    Verdict owed() {
      return Findings.of(
              at(), factIds, new RuleFinding.NoLine(demand.anyOf(), rulebook.id(), category))
          .owed(
              Optional.empty(),
              List.of(new Evidence.RuleFor(demand.anyOf(), category)),
              List.of(new Advice.CorrectRulebook()));
    }

    private GateAspect at() {
      Quantity first = demand.anyOf().get(0);
      return GateAspect.of(demand.gate(), "no line: " + first, new Aspect.Kind(first));
    }

    Optional<RuleNote> note() {
      return nothing.map(
          source ->
              new RuleNote(
                  Optional.of(demand.gate()),
                  new RuleFinding.NothingAsked(demand.anyOf(), source).coded()));
    }
  }
}
