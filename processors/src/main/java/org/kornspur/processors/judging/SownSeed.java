package org.kornspur.processors.judging;

import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.statement.Coded;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.dossier.InheritedFinding;
import org.kornspur.processors.dossier.Report;
import org.kornspur.processors.finding.Aspect;
import org.kornspur.processors.finding.Evidence;
import org.kornspur.processors.gates.SameSeed;
import org.kornspur.processors.standards.Quantity;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.processors.verdict.Verdict;

/**
 * What seed that was sown means for its crop, beyond what every descendant inherits. Seed of other
 * species that was sown grows, and so does what came from a crop full of it: the crop has it, until
 * its own inspection counted enough plants of that kind and found few. Where the book asks for no
 * such count nothing settles it. So too where the seed was never tested for it. Dead, moist or
 * ergoty seed makes no harvest impure: the harvest is tested itself.
 *
 * <p>Common practice, no source, for the inspection that settles it; that basic seed must have met
 * the conditions for basic seed: Council Directive 66/402/EEC, Article 2, from memory.
 */
final class SownSeed {
  private static final Set<Gate> OF_OTHER_SPECIES =
      EnumSet.of(Gate.ANALYTICAL_PURITY, Gate.OTHER_SEEDS, Gate.OTHER_PLANTS);

  /** Where the other plants alone are too many, they are told by themselves beside the total. */
  private static final Map<Coded, Coded> COUNTED_AS =
      Map.of(
          kind(Quantity.OTHER_SEEDS_TOTAL), kind(Quantity.OTHER_CEREAL_PLANTS),
          kind(Quantity.OTHER_CEREAL_SEEDS), kind(Quantity.OTHER_CEREAL_PLANTS),
          kind(Quantity.WILD_OAT_SEEDS), kind(Quantity.WILD_OAT_PLANTS));

  private static final String NO_LINE = Coded.codeOf(Evidence.RuleFor.class);

  private SownSeed() {}

  private static Coded kind(Quantity what) {
    return new Aspect.Kind(what).coded();
  }

  /** What sown seed was never tested for, though its book asks for it; of lots it is not told. */
  static Stream<InheritedFinding> untested(Report.FromParent sown, Dossier receiver) {
    return receiver.subject().kind() != Subject.Kind.CROP
        ? Stream.empty()
        : sown.seedVerdicts().stream()
            .filter(verdict -> OF_OTHER_SPECIES.contains(verdict.gate()))
            .filter(Verdict.Owed.class::isInstance)
            .map(Verdict.Owed.class::cast)
            .filter(owed -> !SameSeed.goesAlong(owed))
            .filter(owed -> owed.evidence().stream().noneMatch(e -> e.code().equals(NO_LINE)))
            .map(owed -> Inheritance.trouble(sown.parent(), owed, InheritedFinding.Weight.OWED));
  }

  /**
   * What a crop takes over of the seed that was sown. A count of other plants says nothing of what
   * it does not count, so each kind is settled by a count of its own, and the rest by none.
   *
   * @param judged what the gates say of the crop
   */
  static Optional<InheritedFinding> inCrop(InheritedFinding trouble, List<Verdict> judged) {
    if (!OF_OTHER_SPECIES.contains(trouble.gate())) {
      return Optional.empty();
    }
    List<Verdict> inspected =
        judged.stream().filter(verdict -> verdict.gate() == Gate.OTHER_PLANTS).toList();
    if (inspected.isEmpty()) {
      return Optional.of(trouble);
    }
    boolean isSettled =
        inspected.stream().allMatch(Verdict.Met.class::isInstance)
            && inspected.stream().anyMatch(verdict -> isOfSameKind(trouble, verdict));
    return isSettled ? Optional.empty() : Optional.of(trouble.owed());
  }

  private static boolean isOfSameKind(InheritedFinding trouble, Verdict counted) {
    return trouble
        .about()
        .map(about -> COUNTED_AS.getOrDefault(about, about))
        .equals(counted.about());
  }

  /** Whether it came through a crop: then it is no longer in the seed as it was tested. */
  static boolean wasSown(InheritedFinding trouble) {
    return trouble.path().stream().anyMatch(subject -> subject.kind() == Subject.Kind.CROP);
  }
}
