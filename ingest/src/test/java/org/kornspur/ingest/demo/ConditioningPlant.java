package org.kornspur.ingest.demo;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import org.kornspur.contract.Blend;
import org.kornspur.contract.Conditioning;
import org.kornspur.contract.LotMass;
import org.kornspur.contract.ShareBasis;

/** What the conditioning plant does: clean, treat, and mix female and pollinator. */
final class ConditioningPlant {
  private static final String TREATMENT = "invented dressing T1; not for food or feed";

  private final Granary granary;

  ConditioningPlant(Granary granary) {
    this.granary = granary;
  }

  /** Cleans a raw lot into one lot. */
  SeedLot clean(Book book, SeedLot raw) {
    return clean(book, raw, List.of(conditionedId(raw))).get(0);
  }

  /** Cleans a raw lot into several lots of the same size. */
  List<SeedLot> clean(Book book, SeedLot raw, List<String> lotIds) {
    Draw draw = Draw.of("conditioning", raw.lotId());
    double cleanKg = raw.massKg() * (1 - draw.between(0.1, 0.2, 3));
    LocalDate on = raw.on().plusDays(draw.between(3, 8));
    List<SeedLot> cleaned = new ArrayList<>();
    for (String lotId : lotIds) {
      cleaned.add(
          new SeedLot(
              lotId,
              raw.hybrid(),
              raw.component(),
              raw.category(),
              Draw.rounded(Math.floor(cleanKg / lotIds.size() / 10) * 10, 0),
              on));
    }
    cleaned.forEach(granary::store);
    double outKg = cleaned.stream().mapToDouble(SeedLot::massKg).sum();
    LotMass input = granary.takeAll(raw);
    boolean sold = raw.component().equals(raw.hybrid().id());
    book.season(on.getYear())
        .add(
            Conditioning.newBuilder()
                .setHeader(
                    Heads.head(
                        "conditioning-" + raw.lotId(),
                        "plant-0" + draw.between(1, 2),
                        on,
                        "conditioning order " + raw.lotId()))
                .setInputs(List.of(input))
                .setOutputs(
                    cleaned.stream().map(lot -> new LotMass(lot.lotId(), lot.massKg())).toList())
                .setScreeningsKg(Draw.rounded((input.getMassKg() - outKg) * 0.98, 0))
                .setTreatment(sold && draw.share() < 0.5 ? TREATMENT : null)
                .build());
    return cleaned;
  }

  /**
   * Mixes female and pollinator so that the pollinator's share, on the breeder's basis, is the one
   * given.
   *
   * @param massKg mass of the mixture, kilograms
   * @param sharePercent share of pollinator that the mixture really gets
   */
  Mixture mix(
      Book book,
      String lotId,
      DemoHybrid hybrid,
      SeedLot female,
      SeedLot pollinator,
      double massKg,
      double sharePercent) {
    double pollinatorToFemale =
        sharePercent
            / (100 - sharePercent)
            * perKilogram(female, hybrid.basis())
            / perKilogram(pollinator, hybrid.basis());
    double femaleKg = Draw.rounded(massKg / (1 + pollinatorToFemale), 1);
    double pollinatorKg = Draw.rounded(femaleKg * pollinatorToFemale, 1);
    Draw draw = Draw.of("blend", lotId);
    SeedLot mixture =
        new SeedLot(
            lotId,
            hybrid,
            hybrid.id(),
            female.category(),
            Draw.rounded(femaleKg + pollinatorKg, 1),
            LocalDate.of(Math.max(female.on().getYear(), pollinator.on().getYear()), 9, 8)
                .plusDays(draw.between(0, 5)));
    book.season(mixture.on().getYear())
        .add(
            new Blend(
                Heads.head(
                    "blend-" + lotId,
                    "plant-0" + draw.between(1, 2),
                    mixture.on(),
                    "mixing order " + lotId),
                lotId,
                hybrid.id(),
                List.of(granary.take(book, female, femaleKg, mixture.on())),
                List.of(granary.take(book, pollinator, pollinatorKg, mixture.on())),
                hybrid.sharePercent()));
    granary.store(mixture);
    double pollinatorKernels = pollinatorKg * perKilogram(pollinator, ShareBasis.KERNELS);
    double femaleKernels = femaleKg * perKilogram(female, ShareBasis.KERNELS);
    return new Mixture(mixture, pollinatorKernels / (pollinatorKernels + femaleKernels));
  }

  /**
   * A technical mixture.
   *
   * @param pollinatorKernelShare share of pollinator among its kernels, 0 to 1
   */
  record Mixture(SeedLot lot, double pollinatorKernelShare) {}

  /** How much of what the share is counted in a kilogram of the lot holds, up to a constant. */
  private static double perKilogram(SeedLot lot, ShareBasis basis) {
    return switch (basis) {
      case MASS -> 1;
      case KERNELS -> 1 / Laboratory.thousandKernelWeightG(lot);
      case VIABLE_KERNELS ->
          Laboratory.germinationPercent(lot) / Laboratory.thousandKernelWeightG(lot);
    };
  }

  private static String conditionedId(SeedLot raw) {
    return "L" + raw.lotId().substring(1);
  }
}
