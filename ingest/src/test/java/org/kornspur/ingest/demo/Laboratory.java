package org.kornspur.ingest.demo;

import java.time.LocalDate;
import java.time.YearMonth;
import java.util.ArrayList;
import java.util.List;
import org.kornspur.contract.BlendComposition;
import org.kornspur.contract.Category;
import org.kornspur.contract.CompositionMethod;
import org.kornspur.contract.FactHeader;
import org.kornspur.contract.GerminationReplicate;
import org.kornspur.contract.GerminationTest;
import org.kornspur.contract.KernelWeightTest;
import org.kornspur.contract.MoistureTest;
import org.kornspur.contract.OtherSeedDetermination;
import org.kornspur.contract.PurityTest;
import org.kornspur.contract.Sampling;
import org.kornspur.contract.WeighedKernels;

/** Samplers and laboratories: how a lot is sampled and what is found in it. */
final class Laboratory {
  private static final double PURITY_SAMPLE_G = 120;
  private static final double FAILED_INERT_G = 3.12;
  private static final double COUNT_SAMPLE_G = 500;
  private static final double BAG_KG = 50;
  private static final int KERNEL_REPLICATES = 8;
  private static final int COMPOSITION_KERNELS = 1000;

  /** Error rates of the invented laboratories' marker method, percent. */
  static final double FALSE_POSITIVE_PERCENT = 0.1;

  static final double FALSE_NEGATIVE_PERCENT = 0.5;

  private Laboratory() {}

  /** Samples a lot and makes every test of it. */
  static void all(Book book, SeedLot lot) {
    allButGermination(book, lot, usualErgotBodies(lot));
    germination(book, lot);
  }

  /** The same with a stated count of ergot bodies. */
  static void allWithErgot(Book book, SeedLot lot, int ergotBodies) {
    allButGermination(book, lot, ergotBodies);
    germination(book, lot);
  }

  /** The same without germination, for a story that tells its own. */
  static void allButGermination(Book book, SeedLot lot) {
    allButGermination(book, lot, usualErgotBodies(lot));
  }

  private static void allButGermination(Book book, SeedLot lot, int ergotBodies) {
    sampling(book, lot);
    purity(book, lot);
    otherSeeds(book, lot, ergotBodies);
    moisture(book, lot);
    kernelWeight(book, lot);
  }

  /** A germination test of four replicates close together. */
  static void germination(Book book, SeedLot lot) {
    book.season(lot.on().getYear())
        .add(germinationTest(lot, "germination-" + lot.lotId(), replicates(lot), null));
  }

  /**
   * Samples seed that was carried over to the next season and tests its germination again; twelve
   * months are common practice, no source.
   */
  static void carriedOver(Book book, SeedLot lot, LocalDate used) {
    LocalDate sampled = LocalDate.of(used.getYear(), 8, 24);
    String sampleId = sampleId(lot) + "-" + used.getYear();
    Draw draw = Draw.of("carried-over", sampleId);
    book.season(used.getYear())
        .add(
            Sampling.newBuilder()
                .setHeader(
                    Heads.head(
                        "sampling-" + lot.lotId() + "-" + used.getYear(),
                        "sampler-0" + draw.between(1, 4),
                        sampled,
                        "sampling report " + sampleId))
                .setSampleId(sampleId)
                .setLotId(lot.lotId())
                .setPrimarySamples(fromBulk(lot.massKg()))
                .setLotMassKg(lot.massKg())
                .setSubmittedSampleG(draw.between(1150, 1500))
                .setSamplerAccreditation("INV-SAMPLER-0" + draw.between(1, 4))
                .build());
    List<GerminationReplicate> before = replicates(lot);
    book.season(used.getYear())
        .add(
            GerminationTest.newBuilder()
                .setHeader(
                    Heads.head(
                        "germination-" + lot.lotId() + "-" + used.getYear(),
                        laboratory(lot).equals("ENT-LAB-ONE") ? "lims-01" : "lims-02",
                        sampled.plusDays(9),
                        "laboratory report " + sampleId))
                .setLotId(lot.lotId())
                .setSampleId(sampleId)
                .setReplicates(List.of(before.get(2), before.get(0), before.get(3), before.get(1)))
                .setLaboratoryId(laboratory(lot))
                .build());
  }

  /** Last day on which the lot's first germination test is good. */
  static LocalDate germinationGoodUntil(SeedLot lot) {
    return YearMonth.from(sampledOn(lot).plusDays(9)).plusMonths(12).atEndOfMonth();
  }

  /** A germination test as given. */
  static GerminationTest germinationTest(
      SeedLot lot, String factId, List<GerminationReplicate> replicates, String retestOf) {
    return GerminationTest.newBuilder()
        .setHeader(result(factId, lot, retestOf == null ? 9 : 19))
        .setLotId(lot.lotId())
        .setSampleId(sampleId(lot))
        .setReplicates(replicates)
        .setLaboratoryId(laboratory(lot))
        .setRetestOf(retestOf)
        .build();
  }

  /** Replicates of 100 seeds with these numbers of normal seedlings. */
  static List<GerminationReplicate> hundreds(int... normalSeedlings) {
    List<GerminationReplicate> replicates = new ArrayList<>();
    for (int normal : normalSeedlings) {
      replicates.add(new GerminationReplicate(100, normal));
    }
    return replicates;
  }

  /** Kernels told apart in a technical mixture. */
  static void composition(Book book, ConditioningPlant.Mixture mixture) {
    SeedLot lot = mixture.lot();
    Draw draw = Draw.of("composition", lot.lotId());
    book.season(lot.on().getYear())
        .add(
            new BlendComposition(
                result("composition-" + lot.lotId(), lot, 4),
                lot.lotId(),
                sampleId(lot),
                CompositionMethod.MARKER,
                COMPOSITION_KERNELS,
                (int) Math.round(COMPOSITION_KERNELS * mixture.pollinatorKernelShare())
                    + draw.between(-4, 4),
                laboratory(lot),
                FALSE_POSITIVE_PERCENT,
                FALSE_NEGATIVE_PERCENT,
                null,
                null));
  }

  /** Mean that the lot's germination test gives, percent. */
  static double germinationPercent(SeedLot lot) {
    return replicates(lot).stream()
        .mapToInt(GerminationReplicate::getNormalSeedlings)
        .average()
        .orElseThrow();
  }

  /** What the lot's kernel weight test gives, grams. */
  static double thousandKernelWeightG(SeedLot lot) {
    return weighed(lot).stream()
        .mapToDouble(replicate -> 1000 * replicate.getMassG() / replicate.getKernels())
        .average()
        .orElseThrow();
  }

  private static List<GerminationReplicate> replicates(SeedLot lot) {
    Draw draw = Draw.of("germination", lot.lotId());
    int about = lot.hybrid().strict() ? draw.between(95, 97) : draw.between(91, 97);
    return hundreds(
        about + draw.between(-2, 2),
        about + draw.between(-2, 2),
        about + draw.between(-2, 2),
        about + draw.between(-2, 2));
  }

  private static List<WeighedKernels> weighed(SeedLot lot) {
    Draw draw = Draw.of("kernels", lot.lotId());
    double hundredG =
        switch (lot.component().charAt(0)) {
          case 'S' -> draw.between(2.7, 3.1, 2);
          case 'H' -> draw.between(3.0, 3.6, 2);
          default -> draw.between(2.4, 2.9, 2);
        };
    List<WeighedKernels> weighed = new ArrayList<>();
    for (int i = 0; i < KERNEL_REPLICATES; i++) {
      weighed.add(
          new WeighedKernels(100, Draw.rounded(hundredG * draw.between(0.985, 1.015, 4), 2)));
    }
    return weighed;
  }

  private static void sampling(Book book, SeedLot lot) {
    Draw draw = Draw.of("sampling", lot.lotId());
    boolean bagged = lot.massKg() >= 500 && draw.share() < 0.3;
    int containers = (int) Math.ceil(lot.massKg() / BAG_KG);
    book.season(lot.on().getYear())
        .add(
            Sampling.newBuilder()
                .setHeader(
                    Heads.head(
                        "sampling-" + lot.lotId(),
                        "sampler-0" + draw.between(1, 4),
                        sampledOn(lot),
                        "sampling report " + sampleId(lot)))
                .setSampleId(sampleId(lot))
                .setLotId(lot.lotId())
                .setContainers(bagged ? containers : null)
                .setPrimarySamples(bagged ? fromBags(containers) : fromBulk(lot.massKg()))
                .setLotMassKg(lot.massKg())
                .setSubmittedSampleG(draw.between(1150, 1500))
                .setSamplerAccreditation("INV-SAMPLER-0" + draw.between(1, 4))
                .setLaboratoryId(laboratory(lot))
                .build());
  }

  /**
   * Primary samples from containers of 15 to 100 kg: Cereal Seed (Scotland) Regulations 2005, SSI
   * 2005/328, Schedule 5, paragraph 6.
   */
  private static int fromBags(int containers) {
    if (containers >= 60) {
      return 30;
    }
    if (containers >= 31) {
      return 20;
    }
    return containers >= 16 ? 15 : containers * (containers >= 9 ? 1 : containers >= 5 ? 2 : 3);
  }

  /** Primary samples from bulk, from memory of the international sampling table. */
  private static int fromBulk(double massKg) {
    if (massKg <= 500) {
      return 5;
    }
    if (massKg <= 3_000) {
      return Math.max(5, (int) Math.ceil(massKg / 300));
    }
    return massKg <= 20_000
        ? Math.max(10, (int) Math.ceil(massKg / 500))
        : Math.max(40, (int) Math.ceil(massKg / 700));
  }

  private static void purity(Book book, SeedLot lot) {
    Draw draw = Draw.of("purity", lot.lotId());
    double inertG = draw.between(0.1, lot.hybrid().strict() ? 0.4 : 1.1, 2);
    double otherG = draw.between(0, 0.1, 2);
    book.season(lot.on().getYear())
        .add(
            new PurityTest(
                result("purity-" + lot.lotId(), lot, 2),
                lot.lotId(),
                sampleId(lot),
                Draw.rounded(PURITY_SAMPLE_G - inertG - otherG, 2),
                inertG,
                otherG,
                laboratory(lot)));
  }

  /** A purity test of the same sample a day before the usual one, with too much inert matter. */
  static void failedPurity(Book book, SeedLot lot) {
    book.season(lot.on().getYear())
        .add(
            new PurityTest(
                result("purity-" + lot.lotId() + "-first", lot, 1),
                lot.lotId(),
                sampleId(lot),
                Draw.rounded(PURITY_SAMPLE_G - FAILED_INERT_G, 2),
                FAILED_INERT_G,
                0.0,
                laboratory(lot)));
  }

  private static void otherSeeds(Book book, SeedLot lot, int ergotBodies) {
    Draw draw = Draw.of("other-seeds", lot.lotId());
    boolean clean = lot.hybrid().strict() || lot.category() != Category.CERTIFIED;
    book.season(lot.on().getYear())
        .add(
            OtherSeedDetermination.newBuilder()
                .setHeader(result("other-seeds-" + lot.lotId(), lot, 3))
                .setLotId(lot.lotId())
                .setSampleId(sampleId(lot))
                .setSampleG(COUNT_SAMPLE_G)
                .setSampleNumber(1)
                .setOtherCereals(draw.between(0, clean ? 1 : 2))
                .setOtherPlants(draw.between(0, clean ? 1 : 3))
                .setRaphanusAndAgrostemma(0)
                .setWildOats(0)
                .setLoliumTemulentum(0)
                .setErgotBodies(ergotBodies)
                .setLaboratoryId(laboratory(lot))
                .build());
  }

  private static int usualErgotBodies(SeedLot lot) {
    Draw draw = Draw.of("ergot", lot.lotId());
    boolean clean = lot.hybrid().strict() || lot.category() != Category.CERTIFIED;
    return clean ? 0 : draw.between(0, 3);
  }

  private static void moisture(Book book, SeedLot lot) {
    double percent =
        Draw.of("moisture", lot.lotId()).between(12.1, lot.hybrid().strict() ? 13.4 : 14.5, 1);
    book.season(lot.on().getYear())
        .add(
            new MoistureTest(
                result("moisture-" + lot.lotId(), lot, 1),
                lot.lotId(),
                sampleId(lot),
                percent,
                laboratory(lot)));
  }

  private static void kernelWeight(Book book, SeedLot lot) {
    book.season(lot.on().getYear())
        .add(
            new KernelWeightTest(
                result("kernel-weight-" + lot.lotId(), lot, 2),
                lot.lotId(),
                sampleId(lot),
                weighed(lot),
                laboratory(lot)));
  }

  private static FactHeader result(String factId, SeedLot lot, int daysAfterSampling) {
    return Heads.head(
        factId,
        laboratory(lot).equals("ENT-LAB-ONE") ? "lims-01" : "lims-02",
        sampledOn(lot).plusDays(daysAfterSampling),
        "laboratory report " + sampleId(lot));
  }

  private static LocalDate sampledOn(SeedLot lot) {
    return lot.on().plusDays(1);
  }

  private static String sampleId(SeedLot lot) {
    return "S-" + lot.lotId();
  }

  private static String laboratory(SeedLot lot) {
    return Draw.of("laboratory", lot.lotId()).oneOf(Enterprises.LABORATORIES);
  }
}
