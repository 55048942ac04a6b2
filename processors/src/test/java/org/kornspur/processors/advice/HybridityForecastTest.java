package org.kornspur.processors.advice;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import org.junit.jupiter.api.Test;
import org.kornspur.contract.Category;
import org.kornspur.contract.CropRole;
import org.kornspur.contract.FieldCropDeclared;
import org.kornspur.contract.PollenSourceKind;
import org.kornspur.contract.ShareBasis;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.dossier.Entry;
import org.kornspur.processors.dossier.Report;
import org.kornspur.processors.fixture.Dossiers;
import org.kornspur.processors.fixture.Facts;
import org.kornspur.processors.ground.FloweringWindow;
import org.kornspur.processors.ground.GeoPosition;
import org.kornspur.processors.ground.Wind;
import org.kornspur.processors.statistics.ExpectedHybridity;

/** Crops, lots and numbers are invented. */
class HybridityForecastTest {
  private static final Function<Subject, Dossier> NOTHING_KNOWN =
      subject -> new Dossier(subject, List.of(), List.of());

  @Test
  void anEmptyDossierIsForecastFromNamedAssumptionsAndSaysWhatIsMissing() {
    HybridityForecast advice =
        advice(
            Dossiers.crop("c1").with(Facts.crop("c1", CropRole.F1_MIXTURE)).dossier(),
            NOTHING_KNOWN);

    assertThat(advice.inputs())
        .filteredOn(input -> input.what().equals(new AdviceInput.SheddingFemales()))
        .singleElement()
        .satisfies(
            input -> {
              assertThat(input.origin()).isEqualTo(InputValue.Origin.STATED);
              assertThat(input.source()).isEqualTo(new InputSource.LawfulSterility(2, 100));
              assertThat(input.value().likely()).isEqualTo(0.02);
            });
    assertThat(advice.inputs())
        .filteredOn(input -> input.what().equals(new AdviceInput.PollinatorShare()))
        .singleElement()
        .satisfies(
            input -> {
              assertThat(input.verified()).isFalse();
              assertThat(input.source()).isEqualTo(new InputSource.CommonPractice());
            });
    assertThat(advice.missing())
        .contains(new Missing.CountInFlower(), new Missing.Sowing(), new Missing.CropFlowering());
  }

  @Test
  void theSameFactsGiveTheSameForecastAndAnotherCropAnotherSimulation() {
    Dossier crop = Dossiers.crop("c1").with(Facts.crop("c1", CropRole.F1_MIXTURE)).dossier();
    Dossier other = Dossiers.crop("c2").with(Facts.crop("c2", CropRole.F1_MIXTURE)).dossier();

    assertThat(advice(crop, NOTHING_KNOWN)).isEqualTo(advice(crop, NOTHING_KNOWN));
    assertThat(advice(other, NOTHING_KNOWN).forecast().seed())
        .isNotEqualTo(advice(crop, NOTHING_KNOWN).forecast().seed());
  }

  @Test
  void onlyAMixtureSownForF1SeedIsForecast() {
    Dossier female = Dossiers.crop("c1").with(Facts.crop("c1", CropRole.STERILE_FEMALE)).dossier();
    assertThat(HybridityForecast.of(female, NOTHING_KNOWN, Optional.empty())).isEmpty();
  }

  /**
   * 950 kg of 25 g at 90 % and 50 kg of 40 g at 80 %: 34.2 and 1.0 million viable kernels, so the
   * share is 1.0 / 35.2, by hand. Half of the blend is sown, through a part that was split off.
   */
  @Test
  void theShareIsReckonedThroughSplitAndBlendDownToTheComponents() {
    var split = Facts.split("mix").id("split").into("part", 500);
    var blend = Facts.blend("mix").id("blend").female("F", 950).pollinator("P", 50);
    Map<Subject, Dossier> known = new HashMap<>();
    known.put(
        Subject.lot("part"),
        Dossiers.lot("part").with(split).parent("mix", Dossiers.mixture()).dossier());
    known.put(
        Subject.lot("mix"),
        Dossiers.lot("mix")
            .with(blend, split)
            .parent("F", Dossiers.component(Facts.SINGLE_CROSS, Category.BASIC), 25, 90)
            .parent("P", Dossiers.component(Facts.RESTORER, Category.BASIC), 40, 80)
            .dossier());
    known.put(
        Subject.lot("F"),
        Dossiers.lot("F")
            .with(blend, Facts.declared("F", Facts.SINGLE_CROSS, Category.BASIC, 950))
            .dossier());
    known.put(
        Subject.lot("P"),
        Dossiers.lot("P")
            .with(blend, Facts.declared("P", Facts.RESTORER, Category.BASIC, 50))
            .dossier());
    Dossier crop =
        Dossiers.crop("c1")
            .with(
                Facts.crop("c1", CropRole.F1_MIXTURE),
                Facts.sowing("c1").id("sowing").of("part", 500))
            .dossier();

    InputValue share = mixtureOf(advice(crop, subject -> lookUp(known, subject)));
    assertThat(share.origin()).isEqualTo(InputValue.Origin.COUNTED);
    assertThat(share.source()).isEqualTo(new InputSource.Mixed(ShareBasis.VIABLE_KERNELS));
    assertThat(share.value().likely()).isCloseTo(1.0 / 35.2, within(1e-9));
    assertThat(share.value().least()).isLessThan(share.value().likely());
    assertThat(share.factIds()).contains("sowing", "split", "blend");

    known.put(
        Subject.lot("mix"),
        Dossiers.lot("mix")
            .with(blend, split)
            .parent("F", Dossiers.component(Facts.SINGLE_CROSS, Category.BASIC), 25, 90)
            .parent("P", Dossiers.component(Facts.RESTORER, Category.BASIC))
            .dossier());
    HybridityForecast untested = advice(crop, subject -> lookUp(known, subject));
    assertThat(mixtureOf(untested).source()).isEqualTo(new InputSource.Mixed(ShareBasis.MASS));
    assertThat(mixtureOf(untested).value().likely()).isCloseTo(0.05, within(1e-12));
    assertThat(untested.missing()).contains(new Missing.KernelWeight(Subject.lot("P")));
  }

  @Test
  void withoutABlendTheBreedersRatioIsTaken() {
    Dossier crop =
        Dossiers.crop("c1")
            .with(Facts.crop("c1", CropRole.F1_MIXTURE), Facts.sowing("c1").of("unknown", 500))
            .scheme()
            .dossier();
    HybridityForecast advice = advice(crop, NOTHING_KNOWN);
    assertThat(mixtureOf(advice).source()).isInstanceOf(InputSource.BreedersRatio.class);
    assertThat(mixtureOf(advice).value().least()).isCloseTo(0.04, within(1e-12));
    assertThat(advice.missing()).contains(new Missing.MixedFrom(Subject.lot("unknown")));
  }

  /** Ten days of flowering, five of them shared. */
  @Test
  void neighboursCountByDistanceSizeAndDaysInCommon() {
    Dossier crop =
        Dossiers.crop("c1")
            .with(
                Facts.crop("c1", CropRole.F1_MIXTURE)
                    .with(
                        declared ->
                            declared
                                .setFloweringFrom(java.time.LocalDate.parse("2024-06-01"))
                                .setFloweringTo(java.time.LocalDate.parse("2024-06-10"))))
            .neighbour(300, "2024-06-06", "2024-06-20")
            .neighbour(600, "2024-06-11", "2024-06-20")
            .neighbour(900)
            .dossier();
    Map<Subject, Dossier> known =
        Map.of(Subject.source("N0"), seen("N0", PollenSourceKind.RYE_CROP));

    HybridityForecast advice = advice(crop, subject -> lookUp(known, subject));
    List<ForeignPollen> foreign = advice.foreignPollen();
    assertThat(foreign).extracting(ForeignPollen::overlap).containsExactly(0.5, 0.0, 1.0);
    assertThat(foreign).extracting(ForeignPollen::counts).containsExactly(true, false, true);
    // 0.003 degrees at 52 north: 206 m by 334 m, by 111.32 km a degree and the cosine
    assertThat(foreign.get(0).areaHa()).isCloseTo(20.6 * 33.4 / 100, within(0.05));
    assertThat(foreign.get(2).areaKnown()).isFalse();
    assertThat(advice.missing()).contains(new Missing.Outline(Subject.source("N2")));
    assertThat(advice.forecast().outcrossed()).isPositive();
  }

  @Test
  void onlyASourceWithoutAnOutlineIsASquareAndTheForecastSaysSo() {
    Dossier one = crop().neighbour(300).dossier();
    Map<Subject, Dossier> known =
        Map.of(Subject.source("N0"), seen("N0", PollenSourceKind.RYE_CROP));
    HybridityForecast outlined = advice(one, subject -> lookUp(known, subject));
    HybridityForecast square = advice(one, NOTHING_KNOWN);

    assertThat(outlined.foreignPollen()).extracting(ForeignPollen::byOutline).containsExactly(true);
    assertThat(outlined.simplifications())
        .contains(new ForecastStatement.NoWind())
        .doesNotContain(new ForecastStatement.SquareSources());
    assertThat(square.foreignPollen()).extracting(ForeignPollen::byOutline).containsExactly(false);
    assertThat(square.simplifications()).contains(new ForecastStatement.SquareSources());
  }

  /** Assumptions without a source; what is asked is that each kind has one, and their order. */
  @Test
  void everyKindOfSourceHasItsDensity() {
    Map<PollenSourceKind, Double> density = new HashMap<>();
    for (PollenSourceKind kind : PollenSourceKind.values()) {
      Report.Neighbour neighbour = neighbour(Subject.source("N0"), Optional.of(kind));
      density.put(kind, pollenOf(neighbour, seen("N0", kind)).relativeDensity());
    }
    assertThat(density)
        .containsEntry(PollenSourceKind.RYE_CROP, 1.0)
        .containsEntry(PollenSourceKind.HYBRID_RYE_CROP, 1.0)
        .containsEntry(PollenSourceKind.RYE_IN_MIXTURE, 0.5)
        .containsEntry(PollenSourceKind.VOLUNTEER_RYE, 0.1)
        .containsEntry(PollenSourceKind.FERAL_RYE, 0.1);
    Map<CropRole, Double> ofRole = new HashMap<>();
    for (CropRole role : CropRole.values()) {
      Dossier crop = Dossiers.crop("N0").with(Facts.crop("N0", role)).dossier();
      ofRole.put(
          role, pollenOf(neighbour(Subject.crop("N0"), Optional.empty()), crop).relativeDensity());
    }
    assertThat(ofRole.get(CropRole.F1_MIXTURE)).isLessThan(ofRole.get(CropRole.STERILE_FEMALE));
    assertThat(ofRole.get(CropRole.STERILE_FEMALE)).isLessThan(ofRole.get(CropRole.POLLINATOR));
    assertThat(ofRole.values()).allMatch(part -> part > 0 && part <= 1);
  }

  /** The source lies east of the crop: a wind from the east brings its pollen. */
  @Test
  void aWindIsAnAssumptionThatMovesForeignPollenAlone() {
    Dossier crop = crop().neighbour(300).dossier();
    Map<Subject, Dossier> known =
        Map.of(Subject.source("N0"), seen("N0", PollenSourceKind.RYE_CROP));
    for (Function<Subject, Dossier> dossiers :
        List.<Function<Subject, Dossier>>of(NOTHING_KNOWN, subject -> lookUp(known, subject))) {
      HybridityForecast calm = advice(crop, dossiers);
      HybridityForecast from = windy(crop, dossiers, 90);
      HybridityForecast against = windy(crop, dossiers, 270);

      assertThat(from.forecast().outcrossed()).isGreaterThan(calm.forecast().outcrossed());
      assertThat(against.forecast().outcrossed()).isLessThan(calm.forecast().outcrossed());
      assertThat(from.forecast().pollinatorSeed()).isEqualTo(calm.forecast().pollinatorSeed());
      assertThat(from).isEqualTo(windy(crop, dossiers, 90));
      assertThat(from.foreignPollen().get(0).distanceM())
          .isEqualTo(calm.foreignPollen().get(0).distanceM());
      assertThat(from.simplifications())
          .contains(new ForecastStatement.OneWind())
          .doesNotContain(new ForecastStatement.NoWind());
      assertThat(from.inputs())
          .filteredOn(input -> input.source().equals(new InputSource.Asked()))
          .allMatch(input -> input.origin() == InputValue.Origin.ASSUMED && !input.verified())
          .extracting(input -> input.value().likely())
          .containsExactly(90.0, 3.0);
    }
  }

  private static HybridityForecast windy(
      Dossier crop, Function<Subject, Dossier> dossiers, double fromDeg) {
    return HybridityForecast.of(crop, dossiers, Optional.of(new Wind(fromDeg, 3))).orElseThrow();
  }

  private static Dossiers crop() {
    return Dossiers.crop("c1").with(Facts.crop("c1", CropRole.F1_MIXTURE));
  }

  private static Dossier seen(String sourceId, PollenSourceKind kind) {
    return new Dossier(
        Subject.source(sourceId),
        List.of(
            new Entry(
                Facts.pollenSource(sourceId, kind, Facts.square(10.01, 52.0, 0.003)).fact(),
                Optional.empty())),
        List.of());
  }

  private static Report.Neighbour neighbour(Subject source, Optional<PollenSourceKind> kind) {
    return new Report.Neighbour(
        source,
        480,
        6.9,
        new GeoPosition(10.003, 52.0),
        new GeoPosition(10.01, 52.0),
        kind,
        Optional.empty(),
        Optional.empty(),
        "seen",
        Optional.empty(),
        Optional.empty());
  }

  private static ForeignPollen pollenOf(Report.Neighbour neighbour, Dossier source) {
    FieldCropDeclared declared = crop().dossier().crop().orElseThrow();
    return ForeignPollen.of(
        FloweringWindow.flowering(declared),
        ForeignPollen.readable(declared.getOutline()),
        neighbour,
        subject -> source,
        Optional.empty());
  }

  @Property(tries = 25)
  void moreSheddersNeverRaiseTheForecast(
      @ForAll @IntRange(min = 200, max = 5000) int examined,
      @ForAll @IntRange(min = 0, max = 50) int perMille,
      @ForAll @IntRange(min = 10, max = 50) int morePerMille) {
    int few = examined * perMille / 1000;
    int many = few + Math.max(2, examined * morePerMille / 1000);
    assertThat(withShedders(many, examined).mean()).isLessThan(withShedders(few, examined).mean());
  }

  @Property(tries = 10)
  void anotherNeighbourNeverRaisesTheForecast(@ForAll @IntRange(min = 0, max = 900) int distanceM) {
    Dossiers crop = Dossiers.crop("c1").with(Facts.crop("c1", CropRole.F1_MIXTURE));
    double alone = advice(crop.dossier(), NOTHING_KNOWN).forecast().mean();
    double beside = advice(crop.neighbour(distanceM).dossier(), NOTHING_KNOWN).forecast().mean();
    assertThat(beside).isLessThan(alone);
  }

  private static ExpectedHybridity withShedders(int shedding, int examined) {
    return advice(
            Dossiers.crop("c1")
                .with(
                    Facts.crop("c1", CropRole.F1_MIXTURE),
                    Facts.inspection("c1").female().sheddingAmong(shedding, examined))
                .dossier(),
            NOTHING_KNOWN)
        .forecast();
  }

  private static HybridityForecast advice(Dossier crop, Function<Subject, Dossier> dossiers) {
    return HybridityForecast.of(crop, dossiers, Optional.empty()).orElseThrow();
  }

  private static InputValue mixtureOf(HybridityForecast advice) {
    return advice.inputs().stream()
        .filter(input -> input.what().equals(new AdviceInput.PollinatorShare()))
        .findFirst()
        .orElseThrow();
  }

  private static Dossier lookUp(Map<Subject, Dossier> known, Subject subject) {
    return known.getOrDefault(subject, NOTHING_KNOWN.apply(subject));
  }
}
