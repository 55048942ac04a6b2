package org.kornspur.processors.gates;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.function.DoublePredicate;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.kornspur.contract.FieldInspection;
import org.kornspur.ingest.statement.Value.Amount;
import org.kornspur.ingest.statement.Value.Fact;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.dossier.Report.EarlierRye;
import org.kornspur.processors.finding.Advice;
import org.kornspur.processors.finding.BasisFinding;
import org.kornspur.processors.finding.Evidence;
import org.kornspur.processors.finding.Finding;
import org.kornspur.processors.finding.GroundFinding;
import org.kornspur.processors.ground.Area;
import org.kornspur.processors.ground.Outline;
import org.kornspur.processors.standards.Limit;
import org.kornspur.processors.standards.Quantity;
import org.kornspur.processors.standards.Rulebook;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.processors.verdict.Verdict;

/**
 * Years before sowing in which no rye stood on the ground, as declared and as the outlines on
 * record show. The fewer count; a declaration that the record contradicts is to be corrected. That
 * nothing is on record proves nothing.
 *
 * <p>Seed Ordinance (SaatV), section 5(1a): two for basic seed of the female component, one for
 * basic seed of the male component and for certified seed. Council Directive 66/402/EEC, Annex I
 * no. 1, asks without a number that earlier crops are not incompatible and volunteers few.
 * Volunteers that visits counted are told here; as plants not true to type they are limited with
 * these.
 */
final class PreviousCroppingGate implements GateRule {

  @Override
  public List<Verdict> judge(Dossier dossier, Rulebook rulebook) {
    return SeedCrop.of(dossier, rulebook)
        .flatMap(
            crop ->
                crop.limit(Quantity.YEARS_WITHOUT_RYE).map(limit -> List.of(judge(crop, limit))))
        .orElse(List.of());
  }

  private static Verdict judge(SeedCrop crop, Limit limit) {
    List<EarlierRye> earlier = crop.dossier().earlierRye();
    if (earlier.isEmpty()) {
      return new Ground(crop, limit, List.of(), List.of()).judge();
    }
    DoublePredicate isOnGround = isOnGround(crop);
    List<EarlierRye> onGround =
        earlier.stream().filter(rye -> isOnGround.test(rye.onCropHa())).toList();
    return new Ground(crop, limit, onGround, together(earlier, onGround, isOnGround)).judge();
  }

  /**
   * Rye of years in which none covered so much of the ground and all together did. Outlines drawn
   * amiss come to as much, so somebody has to look.
   */
  private static List<EarlierRye> together(
      List<EarlierRye> earlier, List<EarlierRye> onGround, DoublePredicate isOnGround) {
    Set<Integer> told = onGround.stream().map(EarlierRye::cropYear).collect(Collectors.toSet());
    Map<Integer, Double> hectares =
        earlier.stream()
            .collect(
                Collectors.groupingBy(
                    EarlierRye::cropYear, Collectors.summingDouble(EarlierRye::onCropHa)));
    return earlier.stream()
        .filter(rye -> !told.contains(rye.cropYear()))
        .filter(rye -> isOnGround.test(hectares.get(rye.cropYear())))
        .toList();
  }

  /** Whether so many hectares are more of the crop's ground than outlines are drawn amiss. */
  private static DoublePredicate isOnGround(SeedCrop crop) {
    double cropHa = Area.hectares(Outline.of(crop.declaration().getOutline()));
    Optional<Limit> least = crop.limit(Quantity.SAME_GROUND);
    return hectares -> least.map(limit -> limit.holds(100 * hectares / cropHa)).orElse(true);
  }

  /**
   * The ground of one crop.
   *
   * @param together rye that covered enough of it only with other rye of its year
   */
  private record Ground(
      SeedCrop crop, Limit limit, List<EarlierRye> earlier, List<EarlierRye> together) {

    Verdict judge() {
      Optional<EarlierRye> last = earlier.stream().filter(this::counts).findFirst();
      Integer declared = crop.declaration().getYearsWithoutRye();
      if (last.isPresent() && !limit.holds(yearsSince(last.get()))) {
        return found(last.get())
            .against(
                yearsSince(last.get()),
                limit,
                List.of(new Advice.GrowElsewhere(), new Advice.AuthorityDecides()));
      }
      if (declared == null) {
        return new Findings(
                Findings.GateAspect.of(Gate.PREVIOUS_CROPPING), List.of(), volunteersOrNothing())
            .owed(limit, new Evidence.YearsWithoutRye());
      }
      Findings asDeclared =
          Findings.of(
              Gate.PREVIOUS_CROPPING,
              List.of(crop.declarationId()),
              new GroundFinding.YearsWithoutRye(declared));
      if (!limit.holds(declared)) {
        return against(asDeclared, declared);
      }
      Optional<EarlierRye> unconfirmed =
          earlier.stream()
              .filter(rye -> !counts(rye))
              .filter(rye -> !limit.holds(yearsSince(rye)))
              .findFirst();
      if (unconfirmed.isPresent()) {
        return found(unconfirmed.get())
            .owed(limit, new Evidence.SourceLookedAt(unconfirmed.get().rye()));
      }
      List<EarlierRye> pieces =
          together.stream().filter(rye -> !limit.holds(yearsSince(rye))).toList();
      if (!pieces.isEmpty()) {
        return ofPieces(pieces);
      }
      return last.filter(rye -> declared > yearsSince(rye))
          .<Verdict>map(
              rye ->
                  found(rye)
                      .and(new GroundFinding.DeclaredOtherwise(declared, yearsSince(rye)))
                      .owed(
                          limit,
                          new Evidence.Correction(
                              List.of(new Fact(crop.declarationId()), new Fact(rye.factId())))))
          .orElseGet(() -> against(asDeclared, declared));
    }

    private Verdict ofPieces(List<EarlierRye> pieces) {
      return Findings.of(
              Gate.PREVIOUS_CROPPING,
              Stream.concat(
                      Stream.of(crop.declarationId()), pieces.stream().map(EarlierRye::factId))
                  .distinct()
                  .toList())
          .and(pieces.stream().map(Ground::onRecord).toList())
          .and(volunteers())
          .owed(
              limit,
              pieces.stream()
                  .map(EarlierRye::rye)
                  .distinct()
                  .map(Evidence.SourceLookedAt::new)
                  .toArray(Evidence[]::new));
    }

    private static GroundFinding onRecord(EarlierRye rye) {
      return new GroundFinding.RyeOnRecord(
          rye.rye(), Integer.toString(rye.cropYear()), new Amount(rye.onCropHa(), "ha"));
    }

    private Verdict against(Findings found, int years) {
      return found
          .and(volunteers())
          .against(
              years, limit, List.of(new Advice.GrowElsewhere(), new Advice.AuthorityDecides()));
    }

    /** A grower's word on the ground of another is looked at before it counts. */
    private boolean counts(EarlierRye rye) {
      return rye.reportedBy()
          .map(enterprise -> enterprise.equals(crop.declaration().getEnterpriseId()))
          .orElse(true);
    }

    private int yearsSince(EarlierRye rye) {
      return crop.declaration().getCropYear() - rye.cropYear() - 1;
    }

    private Findings found(EarlierRye rye) {
      return Findings.of(
              Gate.PREVIOUS_CROPPING, List.of(crop.declarationId(), rye.factId()), onRecord(rye))
          .and(new GroundFinding.YearsWithoutRye(yearsSince(rye)))
          .and(volunteers());
    }

    private List<Finding> volunteersOrNothing() {
      List<Finding> said = new ArrayList<>();
      said.add(new BasisFinding.Nothing());
      volunteers().ifPresent(said::add);
      return said;
    }

    /** Rye of earlier crops that the visits counted; empty where none looked for it. */
    private Optional<Finding> volunteers() {
      List<Integer> counts =
          crop.inspections().stream()
              .map(FieldInspection::getVolunteerPlants)
              .filter(Objects::nonNull)
              .toList();
      return counts.isEmpty()
          ? Optional.empty()
          : Optional.of(
              new GroundFinding.Volunteers(
                  counts.stream().mapToInt(Integer::intValue).sum(), counts.size()));
    }
  }
}
