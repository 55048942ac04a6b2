package org.kornspur.processors.advice;

import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.kornspur.contract.CropRole;
import org.kornspur.contract.FieldCropDeclared;
import org.kornspur.contract.FloweringPart;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.statement.Value.Amount;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.ground.FloweringOverlap;
import org.kornspur.processors.statistics.TriangularRange;

/**
 * Whether female and pollen parent of a crop flower together, as it was seen. Advice, not a gate.
 *
 * <p>A floret that gets no pollen stays open, sets no seed, and may be infected by ergot: so it is
 * said in the trade (common practice, no source).
 *
 * @param overlap the days in common; empty until both are known
 * @param said in order
 */
public record NickingAdvice(
    Subject crop,
    PartFlowering female,
    PartFlowering pollenParent,
    Optional<Overlap> overlap,
    List<NickingStatement> said,
    List<Missing> missing) {
  /** How far a day that somebody noted may be off, days; common practice, no source. */
  private static final int DAYS_OFF = 1;

  /**
   * Part of the female's flowering in which the pollen parent sheds.
   *
   * @param days in common
   * @param femaleDays on which the female flowers
   * @param factIds what was seen of both
   */
  public record Overlap(int days, int femaleDays, List<String> factIds) {

    /** The share, and what it may be where each part was noted a day early or late. */
    TriangularRange share() {
      return new TriangularRange(
          share(days - 2 * DAYS_OFF), share(days), share(days + 2 * DAYS_OFF));
    }

    private double share(int together) {
      return Math.max(0, Math.min(1, (double) together / femaleDays));
    }
  }

  /** The advice; empty for a crop that is not declared or has no female beside a pollen parent. */
  public static Optional<NickingAdvice> of(Dossier crop) {
    return crop.crop()
        .map(FieldCropDeclared::getRole)
        .filter(role -> role == CropRole.STERILE_FEMALE || role == CropRole.F1_MIXTURE)
        .map(
            role ->
                of(
                    crop.subject(),
                    PartFlowering.of(crop, FloweringPart.FEMALE),
                    PartFlowering.of(crop, FloweringPart.POLLEN_PARENT)));
  }

  private static NickingAdvice of(Subject crop, PartFlowering female, PartFlowering pollenParent) {
    List<NickingStatement> said = new ArrayList<>();
    List<Missing> missing = new ArrayList<>();
    flowered(female, said);
    flowered(pollenParent, said);
    if (!female.window().isKnown()) {
      missing.add(new Missing.FemaleFlowering());
    }
    if (!pollenParent.window().isKnown()) {
      missing.add(new Missing.PollinatorFlowering());
    }
    Optional<Overlap> overlap =
        missing.isEmpty() ? Optional.of(meeting(female, pollenParent, said)) : Optional.empty();
    fullApart(female, pollenParent).ifPresent(said::add);
    overlap
        .filter(met -> met.days() < met.femaleDays())
        .ifPresent(
            met -> said.add(new NickingStatement.OpenFlorets(met.femaleDays() - met.days())));
    return new NickingAdvice(
        crop, female, pollenParent, overlap, List.copyOf(said), List.copyOf(missing));
  }

  private static void flowered(PartFlowering part, List<NickingStatement> said) {
    if (part.window().isKnown()) {
      said.add(
          new NickingStatement.Flowered(
              part.part(), part.window().from().orElseThrow(), part.window().to().orElseThrow()));
    }
    part.full().ifPresent(on -> said.add(new NickingStatement.FullFlower(part.part(), on)));
  }

  private static Overlap meeting(
      PartFlowering female, PartFlowering pollenParent, List<NickingStatement> said) {
    LocalDate from = female.window().from().orElseThrow();
    int femaleDays = days(from, female.window().to().orElseThrow());
    FloweringOverlap meeting = FloweringOverlap.between(female.window(), pollenParent.window());
    int together = 0;
    if (meeting instanceof FloweringOverlap.Together both) {
      together = (int) both.days();
      said.add(
          new NickingStatement.Together(
              both.from(), both.to(), together, Amount.percent(100.0 * together / femaleDays)));
    } else if (meeting instanceof FloweringOverlap.Apart apart) {
      said.add(new NickingStatement.NoDayTogether(apart.earlierEnds(), apart.laterBegins()));
    }
    return new Overlap(
        together,
        femaleDays,
        Stream.concat(female.factIds().stream(), pollenParent.factIds().stream())
            .sorted()
            .toList());
  }

  private static Optional<NickingStatement> fullApart(
      PartFlowering female, PartFlowering pollenParent) {
    return female
        .full()
        .flatMap(
            one ->
                pollenParent
                    .full()
                    .map(other -> (int) Math.abs(ChronoUnit.DAYS.between(one, other))))
        .filter(apart -> apart > 0)
        .map(NickingStatement.FullApart::new);
  }

  private static int days(LocalDate from, LocalDate to) {
    return (int) ChronoUnit.DAYS.between(from, to) + 1;
  }
}
