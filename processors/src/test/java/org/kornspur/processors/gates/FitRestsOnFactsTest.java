package org.kornspur.processors.gates;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.kornspur.contract.Category;
import org.kornspur.contract.CompositionMethod;
import org.kornspur.contract.CropRole;
import org.kornspur.contract.InspectedPart;
import org.kornspur.contract.ShareBasis;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.dossier.Material;
import org.kornspur.processors.dossier.Report;
import org.kornspur.processors.fixture.Dossiers;
import org.kornspur.processors.fixture.Draft;
import org.kornspur.processors.fixture.Facts;
import org.kornspur.processors.judging.Judge;
import org.kornspur.processors.judging.Standing;
import org.kornspur.processors.standards.Limit;
import org.kornspur.processors.standards.Quantity;
import org.kornspur.processors.standards.Rulebook;
import org.kornspur.processors.standards.Rulebooks;
import org.kornspur.processors.verdict.Fitness;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.processors.verdict.Verdict;

/**
 * Of a fit crop or lot every subset of its facts is judged: it is fit only where each gate that the
 * book asks for is met by facts that are there. Our own rule, no source.
 */
@Tag("slow")
class FitRestsOnFactsTest {
  private static final Judge JUDGE = Judge.by(Rulebooks.bundled());

  /** Limits that are not met by themselves: a stage or a risk by which others are judged. */
  private static final Set<Quantity> BY_WHICH_OTHERS_ARE_JUDGED =
      EnumSet.of(
          Quantity.INSPECTION_STAGE,
          Quantity.POST_CONTROL_PLANTS,
          Quantity.POST_CONTROL_PRODUCER_RISK,
          Quantity.BLEND_SHARE_EXTRA_TOLERANCE);

  /** What a verdict is by in place of what is asked for. */
  private static final Map<Quantity, Quantity> INSTEAD =
      Map.of(
          Quantity.GERMINATION_SEEDS, Quantity.GERMINATION,
          Quantity.POST_CONTROL_OFF_TYPES, Quantity.POST_CONTROL_FEMALE_OFF_TYPES,
          Quantity.POST_CONTROL_SHEDDING, Quantity.POST_CONTROL_FEMALE_SHEDDING);

  private record Fit(String name, String book, Dossier dossier) {
    @Override
    public String toString() {
      return name + " under " + book;
    }
  }

  static Stream<Fit> fit() {
    Stream<Fit> under = Stream.of("EU", "DE", "HOUSE", "US").flatMap(FitRestsOnFactsTest::fitUnder);
    Stream<Fit> lots =
        Stream.of("US-TX", "OECD")
            .flatMap(
                book ->
                    Stream.of(
                        new Fit("certified lot", book, lot(book, Category.CERTIFIED, Facts.HYBRID)),
                        new Fit("basic lot", book, lot(book, Category.BASIC, Facts.SINGLE_CROSS))));
    return Stream.of(under, lots, ofOtherSeed("EU"), ofOtherSeed("DE")).flatMap(fits -> fits);
  }

  private static Stream<Fit> ofOtherSeed(String book) {
    return Stream.of(
        new Fit("treated lot", book, treated(book)),
        new Fit("mixture bought in", book, boughtInMixture(book)),
        new Fit("graded mixture with a sample", book, gradedMixture(book)),
        new Fit("hybrid seed with open-pollinated rye", book, admixed(book)),
        new Fit("rest of a lot of which a part failed", book, rest(book)));
  }

  private static Stream<Fit> fitUnder(String book) {
    return Stream.of(
        new Fit("certified lot", book, lot(book, Category.CERTIFIED, Facts.HYBRID)),
        new Fit("basic lot", book, lot(book, Category.BASIC, Facts.SINGLE_CROSS)),
        new Fit("pre-basic lot", book, lot(book, Category.PRE_BASIC, "A1")),
        new Fit("female", book, crop(book, CropRole.STERILE_FEMALE)),
        new Fit("pollinator", book, crop(book, CropRole.POLLINATOR)),
        new Fit("maintainer", book, crop(book, CropRole.MAINTAINER)),
        new Fit("fertile line", book, crop(book, CropRole.FERTILE_LINE)),
        new Fit("mixture with a sample", book, mixture(book)),
        new Fit("part of a conditioned harvest", book, part(book)),
        new Fit("lot in post-control", book, inPostControl(book)),
        new Fit("F1 crop", book, crop(book, CropRole.F1_MIXTURE)));
  }

  @ParameterizedTest
  @MethodSource("fit")
  void noSubsetOfTheFactsIsFitWithoutThoseThatTheBookAsksFor(Fit fit) {
    assertThat(standing(fit.dossier()).state()).isEqualTo(Fitness.FIT);
    List<String> all = factIds(fit.dossier()).stream().sorted().toList();
    assertThat(all).hasSizeLessThan(13);

    IntStream.range(0, 1 << all.size())
        .forEach(
            chosen -> {
              Dossier subset =
                  fit.dossier()
                      .of(entry -> (chosen & 1 << all.indexOf(entry.header().getFactId())) != 0);
              JUDGE
                  .judge(subset)
                  .standing()
                  .filter(standing -> standing.state() == Fitness.FIT)
                  .ifPresent(standing -> restsOnFacts(fit, subset, standing));
            });
  }

  private static void restsOnFacts(Fit fit, Dossier subset, Standing standing) {
    Rulebook book = Rulebooks.bundled().find(fit.book()).orElseThrow();
    Set<String> own = new TreeSet<>(factIds(subset));
    own.addAll(ofUnsplit(subset));
    Set<String> there = new TreeSet<>(own);
    there.addAll(reported(subset));
    List<RequiredLimit> demands =
        Stream.concat(
                SeedCrop.of(subset, book).stream()
                    .flatMap(crop -> RequiredLimits.of(crop).stream().filter(d -> asks(crop, d))),
                SeedLot.of(subset, book).stream()
                    .flatMap(lot -> RequiredLimits.of(lot).stream().filter(d -> asks(lot, d))))
            .filter(demand -> demand.gate().reach() != Gate.Reach.CERTIFIED_DESCENDANTS)
            .toList();
    assertThat(demands).isNotEmpty();
    for (RequiredLimit demand : demands) {
      assertThat(standing.verdicts())
          .as("%s of %s with %s", demand, fit, there)
          .anyMatch(
              verdict ->
                  verdict instanceof Verdict.Met
                      && verdict.gate() == demand.gate()
                      && answers(verdict, demand)
                      && verdict.factIds().stream().anyMatch(own::contains)
                      && there.containsAll(verdict.factIds()));
    }
  }

  /** One aspect that is met answers for no other aspect of its gate. */
  private static boolean answers(Verdict verdict, RequiredLimit demand) {
    return !demand.besides().isEmpty()
        || BY_WHICH_OTHERS_ARE_JUDGED.containsAll(demand.anyOf())
        || verdict
            .limit()
            .map(Limit::quantity)
            .filter(
                by ->
                    demand.anyOf().stream()
                        .anyMatch(asked -> by == asked || by == INSTEAD.get(asked)))
            .isPresent();
  }

  private static boolean asks(SeedCrop crop, RequiredLimit demand) {
    return demand.anyOf().stream().anyMatch(quantity -> crop.limit(quantity).isPresent());
  }

  private static boolean asks(SeedLot lot, RequiredLimit demand) {
    return demand.anyOf().stream().anyMatch(quantity -> lot.limit(quantity).isPresent());
  }

  private static Standing standing(Dossier dossier) {
    return JUDGE.judge(dossier).standing().orElseThrow();
  }

  /** Facts of neighbours and measures of the parts of a mixture, which are in other dossiers. */
  private static Set<String> reported(Dossier dossier) {
    Stream<String> measures =
        dossier.parents().stream()
            .flatMap(parent -> parent.measures().factIds(ShareBasis.VIABLE_KERNELS));
    return Stream.concat(
            dossier.neighbourReports().stream().map(Report.Neighbour::factId), measures)
        .collect(Collectors.toSet());
  }

  /** Facts of the lot that a part was split from, or that was only treated, on whose it rests. */
  private static Set<String> ofUnsplit(Dossier part) {
    return part.edgesIn().stream()
        .filter(edge -> edge.by() == FactType.LOT_SPLIT || OnlyTreated.isBy(edge.factId(), part))
        .flatMap(edge -> part.parent(edge.parent()).stream())
        .flatMap(parent -> parent.seedVerdicts().stream())
        .flatMap(verdict -> verdict.factIds().stream())
        .collect(Collectors.toSet());
  }

  private static Set<String> factIds(Dossier dossier) {
    return dossier
        .counting()
        .map(fact -> FactType.headerOf(fact).getFactId())
        .collect(Collectors.toSet());
  }

  private static Dossier lot(String book, Category category, String seed) {
    return Dossiers.lot("l1")
        .with(declared(book, category, seed), Facts.dispatch("l1", 500))
        .with(tests("l1"))
        .scheme()
        .dossier();
  }

  private static Draft<?> declared(String book, Category category, String seed) {
    return Facts.declared("l1", seed, category, 1000).with(lot -> lot.setRulebookId(book));
  }

  private static Draft<?>[] tests(String lotId) {
    return new Draft<?>[] {
      Facts.sampling(lotId, 40, 1000, 40),
      Facts.germination(lotId, 95, 94, 96, 95),
      Facts.purity(lotId, 119.4, 0.5, 0.1),
      Facts.moisture(lotId, 13),
      Facts.otherSeeds(lotId)
    };
  }

  private static Dossier inPostControl(String book) {
    return Dossiers.lot("l1")
        .with(
            declared(book, Category.BASIC, Facts.SINGLE_CROSS),
            Facts.postControl("l1", 4000, 0).with(result -> result.setSheddingPlants(0)))
        .with(tests("l1"))
        .scheme()
        .dossier();
  }

  private static Dossier treated(String book) {
    Draft<?> work =
        Facts.conditioning()
            .from("whole", 1000)
            .into("l1", 1000)
            .treatedWith("invented dressing")
            .at("2024-09-20");
    Dossier whole =
        Dossiers.lot("whole")
            .with(
                Facts.declared("whole", Facts.HYBRID, Category.CERTIFIED, 1000)
                    .with(lot -> lot.setRulebookId(book)),
                work)
            .with(tests("whole"))
            .scheme()
            .dossier();
    return Dossiers.lot("l1")
        .with(work, Facts.dispatch("l1", 100).at("2024-10-01"))
        .told(JUDGE.judge(whole).reports().toArray(Report[]::new))
        .dossier();
  }

  private static Dossier boughtInMixture(String book) {
    return Dossiers.lot("l1")
        .with(
            declared(book, Category.BASIC, Facts.HYBRID),
            Facts.composition("l1", 1000, 50).with(s -> s.setMethod(CompositionMethod.GROW_OUT)),
            Facts.postControl("l1", 4000, 0).at("2025-06-10"))
        .with(tests("l1"))
        .scheme()
        .dossier();
  }

  private static Dossier gradedMixture(String book) {
    Draft<?> work = Facts.conditioning().from("mix", 1000).into("l1", 900).screenings(100);
    return Dossiers.lot("l1")
        .with(
            work.at("2024-09-06"),
            Facts.composition("l1", 1000, 50).with(s -> s.setMethod(CompositionMethod.GROW_OUT)))
        .with(tests("l1"))
        .parent(
            "mix",
            new Material(
                Facts.HYBRID,
                Facts.HYBRID,
                Material.Kind.TECHNICAL_MIXTURE,
                Category.BASIC,
                2024,
                book))
        .scheme()
        .dossier();
  }

  private static Dossier admixed(String book) {
    return Dossiers.lot("l1")
        .with(Facts.admixture("l1").hybrid("f", 950).openPollinated("o", 50))
        .with(tests("l1"))
        .parent("f", f1(book))
        .parent(
            "o",
            new Material(
                Facts.HYBRID, "OP1", Material.Kind.COMPONENT, Category.CERTIFIED, 2024, book))
        .dossier();
  }

  /** A part was divided off and failed, and what is left was sampled since. */
  private static Dossier rest(String book) {
    Draft<?> split = Facts.split("l1").into("part", 400).at("2024-09-12");
    Dossier part =
        Dossiers.lot("part")
            .with(
                split,
                Facts.otherSeeds("part").with(count -> count.setOtherCereals(90)).at("2024-09-14"))
            .parent("l1", f1(book))
            .dossier();
    Dossiers rest =
        Dossiers.lot("l1").with(declared(book, Category.CERTIFIED, Facts.HYBRID), split);
    rest.with(tests("l1"));
    rest.with(
        Facts.sampling("l1", 40, 600, 40).with(s -> s.setSampleId("since")).at("2024-09-15"),
        Facts.germination("l1", 95, 94, 96, 95)
            .with(test -> test.setSampleId("since"))
            .at("2024-09-15"),
        Facts.purity("l1", 119.4, 0.5, 0.1)
            .with(test -> test.setSampleId("since"))
            .at("2024-09-15"),
        Facts.moisture("l1", 13).with(test -> test.setSampleId("since")).at("2024-09-15"),
        Facts.otherSeeds("l1").with(test -> test.setSampleId("since")).at("2024-09-15"));
    return rest.told(
            JUDGE.judge(part).reports().stream()
                .filter(Report.FromPart.class::isInstance)
                .toArray(Report[]::new))
        .scheme()
        .dossier();
  }

  private static Material f1(String book) {
    return new Material(
        Facts.HYBRID, Facts.HYBRID, Material.Kind.F1_SEED, Category.CERTIFIED, 2024, book);
  }

  private static Dossier mixture(String book) {
    return Dossiers.lot("mix")
        .with(
            Facts.blend("mix").female("f", 956).pollinator("p", 44),
            Facts.composition("mix", 1000, 48).with(s -> s.setMethod(CompositionMethod.GROW_OUT)))
        .with(tests("mix"))
        .scheme()
        .parent("f", component(book, Facts.SINGLE_CROSS), 32, 92)
        .parent("p", component(book, Facts.RESTORER), 28, 85)
        .dossier();
  }

  private static Material component(String book, String componentId) {
    return new Material(
        Facts.HYBRID, componentId, Material.Kind.COMPONENT, Category.BASIC, 2024, book);
  }

  /** Harvested, conditioned, tested, and split: the part has no test of its own. */
  private static Dossier part(String book) {
    Draft<?> conditioning = Facts.conditioning().from("raw", 1100).into("l1", 1000).screenings(100);
    Draft<?> split = Facts.split("l1").into("part", 500).at("2024-09-20");
    Dossier raw =
        Dossiers.lot("raw")
            .with(Facts.harvest("c1", "raw", 1100), conditioning)
            .parentCrop(
                "c1",
                new Material(
                    Facts.HYBRID,
                    Facts.HYBRID,
                    Material.Kind.F1_SEED,
                    Category.CERTIFIED,
                    2024,
                    book),
                CropRole.F1_MIXTURE)
            .scheme()
            .dossier();
    Dossier whole =
        Dossiers.lot("l1")
            .with(conditioning, split)
            .with(tests("l1"))
            .told(JUDGE.judge(raw).reports().toArray(Report[]::new))
            .scheme()
            .dossier();
    return Dossiers.lot("part")
        .with(split, Facts.dispatch("part", 100).at("2024-10-01"))
        .told(JUDGE.judge(whole).reports().toArray(Report[]::new))
        .scheme()
        .dossier();
  }

  private static Dossier crop(String book, CropRole role) {
    Draft<?> declared =
        Facts.crop("c1", role)
            .with(
                crop ->
                    crop.setRulebookId(book)
                        .setFloweringFrom(LocalDate.of(2024, 5, 25))
                        .setFloweringTo(LocalDate.of(2024, 6, 25)));
    Dossiers crop =
        Dossiers.crop("c1")
            .with(declared)
            .with(visit(1, role).offTypesAmong(0, 9000))
            .with(visit(2, role).offTypesAmong(0, 9000))
            .with(visit(3, role).offTypesAmong(0, 9000))
            .with(Facts.sterility("c1", 2000, 0).at("2024-06-05"))
            .scheme()
            .neighbour(2000);
    return switch (role) {
      case STERILE_FEMALE ->
          crop.with(Facts.sowing("c1").of("f1", 90).of("p1", 10), pollen(1), pollen(2))
              .parent("f1", Dossiers.component(Facts.STERILE_LINE, Category.PRE_BASIC))
              .parent("p1", Dossiers.component(Facts.FERTILE_LINE, Category.PRE_BASIC))
              .dossier();
      case F1_MIXTURE ->
          crop.with(Facts.sowing("c1").of("m1", 100)).parent("m1", Dossiers.mixture()).dossier();
      case MAINTAINER, POLLINATOR, FERTILE_LINE ->
          crop.with(Facts.sowing("c1").of("p1", 100))
              .parent("p1", Dossiers.component(seedOf(role), Category.PRE_BASIC))
              .dossier();
    };
  }

  private static String seedOf(CropRole role) {
    return switch (role) {
      case MAINTAINER -> Facts.MAINTAINER;
      case FERTILE_LINE -> Facts.FERTILE_LINE;
      default -> Facts.RESTORER;
    };
  }

  private static Facts.InspectionDraft pollen(int number) {
    return Facts.inspection("c1")
        .visit(number)
        .at("2024-06-0" + number)
        .of(InspectedPart.POLLEN_PARENT)
        .offTypesInArea(0, 150)
        .offTypesAmong(0, 9000);
  }

  private static Facts.InspectionDraft visit(int number, CropRole role) {
    InspectedPart part =
        role == CropRole.STERILE_FEMALE || role == CropRole.F1_MIXTURE
            ? InspectedPart.FEMALE
            : InspectedPart.WHOLE_CROP;
    return Facts.inspection("c1")
        .visit(number)
        .at("2024-06-0" + number)
        .of(part)
        .offTypesInArea(0, 450)
        .sheddingAmong(0, 3000)
        .with(
            count ->
                count
                    .setOtherCerealPlants(0)
                    .setHardToSeparatePlants(0)
                    .setWildOatPlants(0)
                    .setSmutPlants(0));
  }
}
