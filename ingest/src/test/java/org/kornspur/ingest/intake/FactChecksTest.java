package org.kornspur.ingest.intake;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.function.UnaryOperator;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.apache.avro.specific.SpecificRecord;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;
import org.kornspur.contract.Accreditation;
import org.kornspur.contract.Admixture;
import org.kornspur.contract.Blend;
import org.kornspur.contract.BlendComposition;
import org.kornspur.contract.Category;
import org.kornspur.contract.Component;
import org.kornspur.contract.ComponentKind;
import org.kornspur.contract.CompositionMethod;
import org.kornspur.contract.Conditioning;
import org.kornspur.contract.Correction;
import org.kornspur.contract.CropRole;
import org.kornspur.contract.Cross;
import org.kornspur.contract.Dispatch;
import org.kornspur.contract.EnterpriseDeclared;
import org.kornspur.contract.EnterpriseKind;
import org.kornspur.contract.FactHeader;
import org.kornspur.contract.FieldCropDeclared;
import org.kornspur.contract.FieldInspection;
import org.kornspur.contract.GeoPoint;
import org.kornspur.contract.GerminationReplicate;
import org.kornspur.contract.GerminationTest;
import org.kornspur.contract.HybridDeclared;
import org.kornspur.contract.InspectedPart;
import org.kornspur.contract.LotDeclared;
import org.kornspur.contract.LotMass;
import org.kornspur.contract.LotMerge;
import org.kornspur.contract.LotSplit;
import org.kornspur.contract.MoistureTest;
import org.kornspur.contract.OtherSeedDetermination;
import org.kornspur.contract.PollenSourceKind;
import org.kornspur.contract.PollenSourceSeen;
import org.kornspur.contract.PostControlMethod;
import org.kornspur.contract.PostControlResult;
import org.kornspur.contract.Sampling;
import org.kornspur.contract.ShareBasis;
import org.kornspur.contract.Sowing;
import org.kornspur.contract.SterilityCheck;
import org.kornspur.contract.TestKind;
import org.kornspur.contract.Withdrawal;
import org.kornspur.ingest.problem.Given;

/**
 * Each rule with a fact that keeps it and one that breaks it. The limits themselves are those of
 * the contract; the ties between fields follow from what the words mean.
 */
class FactChecksTest {

  static final FactHeader HEADER =
      new FactHeader(
          "f-1",
          "inspector-07",
          Instant.parse("2024-06-11T08:00:00Z"),
          Instant.parse("2024-06-11T09:00:00Z"),
          "sheet 12",
          null,
          null);

  private static final List<GeoPoint> SQUARE =
      List.of(
          new GeoPoint(10.0, 52.0),
          new GeoPoint(10.01, 52.0),
          new GeoPoint(10.01, 52.01),
          new GeoPoint(10.0, 52.01));

  static Stream<Arguments> cases() {
    return Stream.of(
        germination(100, 100, null),
        germination(100, 101, null, "replicates[1].normalSeedlings"),
        germination(24, 20, null, "replicates[0].seeds", "replicates[1].seeds"),
        germination(100, 90, "f-1", "retestOf"),
        germination(100, 90, "f-0"),
        inspection(visit -> visit.setPlantsCounted(100)),
        inspection(visit -> visit.setAreaM2(50.0)),
        inspection(visit -> visit, "plantsCounted"),
        inspection(visit -> visit.setAreaM2(Double.NaN), "areaM2"),
        inspection(visit -> visit.setAreaM2(Double.POSITIVE_INFINITY), "areaM2"),
        inspection(visit -> visit.setPlantsCounted(100).setSheddingPlants(101), "sheddingPlants"),
        inspection(visit -> visit.setPlantsCounted(2), "offTypePlants"),
        inspection(visit -> visit.setPlantsCounted(9).setSmutPlants(10), "smutPlants"),
        inspection(visit -> visit.setPlantsCounted(9).setWildOatPlants(10), "wildOatPlants"),
        inspection(
            visit -> visit.setPlantsCounted(9).setOtherCerealPlants(10), "otherCerealPlants"),
        inspection(
            visit -> visit.setPlantsCounted(9).setHardToSeparatePlants(10), "hardToSeparatePlants"),
        inspection(
            visit -> visit.setPlantsCounted(9).setPlantsInReceptiveFlower(10),
            "plantsInReceptiveFlower"),
        inspection(visit -> visit.setPlantsCounted(9).setErgotBodies(10)),
        inspection(visit -> visit.setPlantsCounted(90).setOffTypePlants(4).setVolunteerPlants(4)),
        inspection(
            visit -> visit.setPlantsCounted(90).setOffTypePlants(4).setVolunteerPlants(5),
            "volunteerPlants"),
        accreditation("2024-01-01", "2024-01-01"),
        accreditation("2024-01-02", "2024-01-01", "accreditations[0].validFrom"),
        inspection(
            visit -> visit.setPlantsCounted(9).setVisit(0).setBbchStage(100), "visit", "bbchStage"),
        sterility(200, 1, 50, 0),
        sterility(200, 1, null, null),
        sterility(200, 201, null, null, "plantsShedding"),
        sterility(200, 0, 10, 11, "baggedEarsWithSeed"),
        sterility(200, 0, 10, null, "baggedEarsWithSeed"),
        sterility(200, 0, null, 1, "baggedEars"),
        sterility(0, 0, null, null, "plantsExamined"),
        sterility(0, 0, 20, 1),
        ok(composition(400, 20)),
        bad(composition(400, 401), "pollinatorKernels"),
        ok(composition(CompositionMethod.MARKER, 0.1, 0.5)),
        ok(weighed(CompositionMethod.KERNEL_COLOUR, 12.6, 0.56)),
        bad(weighed(CompositionMethod.KERNEL_COLOUR, 12.6, null), "pollinatorMassG"),
        bad(weighed(CompositionMethod.KERNEL_COLOUR, null, 0.56), "examinedMassG"),
        bad(weighed(CompositionMethod.KERNEL_COLOUR, 12.6, 5.6), "pollinatorMassG"),
        bad(weighed(CompositionMethod.KERNEL_COLOUR, 1.2, 0.56), "examinedMassG"),
        bad(weighed(CompositionMethod.GROW_OUT, 12.6, 0.56), "examinedMassG", "pollinatorMassG"),
        bad(composition(CompositionMethod.MARKER, 0.1, null), "falseNegativePercent"),
        bad(composition(CompositionMethod.MARKER, 100.5, 0.5), "falsePositivePercent"),
        bad(
            composition(CompositionMethod.GROW_OUT, 0.1, 0.5),
            "falsePositivePercent",
            "falseNegativePercent"),
        ok(postControl(2000, 3, null, 12)),
        bad(postControl(10, 11, 12, 13), "offTypePlants", "sheddingPlants", "nonHybridPlants"),
        ok(postControl(PostControlMethod.MARKER, 0.0, 0.5)),
        bad(postControl(PostControlMethod.MARKER, null, 0.5), "falsePositivePercent"),
        bad(postControl(PostControlMethod.PLOT, null, 0.5), "falseNegativePercent"),
        ok(conditioning(lots("A", 1000), lots("B", 970), 30)),
        ok(conditioning(lots("A", 1000), lots("B", 990), 30)),
        bad(conditioning(lots("A", 1000), lots("B", 991), 30), "outputs"),
        bad(conditioning(lots("A", 1000), lots("A", 900), 30), "outputs[0].lotId"),
        bad(conditioning(lots("A", 500, "A", 500), lots("B", 900), 30), "inputs[1].lotId"),
        ok(new Sowing(HEADER, "C1", lots("A", 60, "B", 5), 12.5)),
        bad(new Sowing(HEADER, "C1", lots("A", 60, "A", 5), 12.5), "sown[1].lotId"),
        bad(new Sowing(HEADER, "C1", lots("A", 0), 0.0), "sown[0].massKg", "areaHa"),
        bad(new Sowing(HEADER, "C1", List.of(), 12.5), "sown"),
        ok(new LotSplit(HEADER, "A", lots("A-1", 10, "A-2", 10))),
        // a breeder's ear rows: a few grams each, sown on a square metre
        ok(new LotSplit(HEADER, "A", lots("A-1", 0.003, "A-2", 0.0015))),
        ok(new Sowing(HEADER, "C1", lots("A-1", 0.003), 0.0001)),
        ok(conditioning(lots("A", 5), lots("B", 5), 0)),
        inspection(visit -> visit.setAreaM2(1.0)),
        bad(new LotSplit(HEADER, "A", lots("A-1", 10, "A", 10)), "parts[1].lotId"),
        ok(new LotMerge(HEADER, lots("A", 1, "B", 2), "C")),
        bad(new LotMerge(HEADER, lots("A", 1, "B", 2), "B"), "intoLotId"),
        bad(new LotMerge(HEADER, lots("A", 1), "B"), "inputs"),
        ok(new Blend(HEADER, "M", "H", lots("F", 95), lots("P", 5), 5.0)),
        bad(new Blend(HEADER, "M", "H", lots("F", 95), lots("F", 5), 5.0), "pollinators[0].lotId"),
        bad(new Blend(HEADER, "F", "H", lots("F", 95), lots("P", 5), 5.0), "blendLotId"),
        ok(new Admixture(HEADER, lots("H", 90), lots("O", 10), "M")),
        bad(new Admixture(HEADER, lots("H", 90), lots("O", 10), "H"), "intoLotId"),
        ok(new Sampling(HEADER, "S", "L", 12, 5, 1000.0, 1000.0, "acc-1", null)),
        bad(new Sampling(HEADER, "S", "L", 12, 5, 1.0, 1001.0, "acc-1", null), "submittedSampleG"),
        ok(determination(0, null)),
        ok(determination(null, 2)),
        bad(determination(null, null), "otherCereals"),
        ok(new Dispatch(HEADER, "L", "E", 25.0, List.of("1", "2"))),
        bad(new Dispatch(HEADER, "L", "E", 25.0, List.of("1", "2", "1")), "labelNumbers[2]"),
        ok(new Withdrawal(HEADER, "f-0", "entered twice")),
        bad(new Withdrawal(HEADER, "f-1", "entered twice"), "withdrawnFactId"),
        bad(new Withdrawal(HEADER, "f-0", "  "), "reason"),
        bad(new Withdrawal(HEADER, "f-0", "x".repeat(2001)), "reason"),
        bad(new Withdrawal(HEADER, "f-0", "line\nline"), "reason"),
        bad(new Withdrawal(HEADER, "f-0", "turned \u202e round"), "reason"),
        ok(new Withdrawal(HEADER, "f-0", "Größe verwechselt — 5 °C")),
        ok(lotDeclared(2024)),
        bad(lotDeclared(2025), "cropYear"),
        bad(lotDeclared(1989), "cropYear"),
        ok(hybrid("C", "H", 5.0, 1.0)),
        bad(hybrid("C", "H", 1.0, 5.0), "tolerancePercentPoints"),
        bad(hybrid("X", "H", 5.0, 1.0), "crosses[1].pollenComponentId"),
        bad(hybrid("B", "H", 5.0, 1.0), "crosses[1].pollenComponentId"),
        bad(hybridOfFertileFemale(), "crosses[1].femaleComponentId"),
        bad(hybrid("C", "AB", 5.0, 1.0), "crosses[1].seedComponentId", "crosses"),
        ok(crop(SQUARE, "2024-06-01", "2024-06-20", 2024)),
        ok(crop(SQUARE, null, null, 2024)),
        bad(crop(SQUARE, "2024-06-20", "2024-06-01", 2024), "floweringFrom"),
        bad(crop(SQUARE, "2025-06-01", "2025-06-20", 2024), "floweringFrom", "floweringTo"),
        ok(source("2024-05-20", "2024-06-01", 2024)),
        ok(source("2023-10-01", null, 2024)),
        bad(source("2024-05-20", "2024-05-19", 2024), "endedOn"),
        bad(source("2025-05-20", null, 2024), "cropYear"),
        bad(moisture("12 3"), "lotId"),
        bad(moisture("A|B"), "lotId"),
        bad(moisture("../A"), "lotId"),
        bad(moisture("A/../B"), "lotId"),
        bad(moisture("A;B"), "lotId"),
        bad(moisture("Ä1"), "lotId"),
        bad(moisture("\u0410-1"), "lotId"),
        bad(moisture("A\u200b1"), "lotId"),
        bad(moisture("A\u0000"), "lotId"),
        bad(moisture("-A"), "lotId"),
        bad(moisture(""), "lotId"),
        bad(moisture("A".repeat(65)), "lotId"),
        ok(moisture("A".repeat(64))),
        ok(moisture("D/MD:123_4567.a-b")));
  }

  @ParameterizedTest
  @MethodSource("cases")
  void aFactIsRefusedForTheFieldsThatBreakARuleAndForNoOther(
      SpecificRecord fact, List<String> fields) {
    List<Problem> problems = FactChecks.check(fact);

    assertThat(problems).extracting(Problem::field).containsExactlyInAnyOrderElementsOf(fields);
  }

  static Stream<Arguments> headers() {
    return Stream.of(
        Arguments.of("2024-06-11T08:00:00Z", "2024-06-11T09:00:00Z", "f-0", List.of()),
        Arguments.of("2024-06-12T09:00:00Z", "2024-06-11T09:00:00Z", "f-0", List.of()),
        Arguments.of(
            "2024-06-12T09:00:01Z", "2024-06-11T09:00:00Z", "f-0", List.of("header.happenedAt")),
        Arguments.of(
            "1989-12-31T23:59:59Z", "2024-06-11T09:00:00Z", "f-0", List.of("header.happenedAt")),
        Arguments.of(
            "2024-06-11T09:00:00Z", "2101-01-01T00:00:00Z", "f-0", List.of("header.recordedAt")),
        Arguments.of(
            "2024-06-11T08:00:00Z",
            "2024-06-11T09:00:00Z",
            "f-1",
            List.of("header.correction.supersedes")));
  }

  @ParameterizedTest
  @MethodSource("headers")
  void theHeadOfAFactMakesSense(
      String happened, String recorded, String supersedes, List<String> fields) {
    FactHeader header =
        new FactHeader(
            "f-1",
            "lab-03",
            Instant.parse(happened),
            Instant.parse(recorded),
            "report",
            new Correction(supersedes, "typing error"),
            null);

    List<Problem> problems = FactChecks.check(new MoistureTest(header, "L", "S", 12.5, "E"));

    assertThat(problems).extracting(Problem::field).containsExactlyElementsOf(fields);
  }

  static Stream<Arguments> outlines() {
    return Stream.of(
        Arguments.of("a ring that is closed by hand", ring(0, 0, 0, 1, 1, 1, 0, 0), null),
        Arguments.of("two corners, one twice", ring(0, 0, 0, 1, 0, 0), "2 distinct corners"),
        Arguments.of("one point", ring(0, 0, 0, 0, 0, 0), "1 distinct corner"),
        Arguments.of(
            "a bow tie", ring(0, 0, 1, 1, 1, 0, 0, 1), "at longitude 10.005°, latitude 52.005°"),
        Arguments.of("a line there and back", ring(0, 0, 1, 0, 2, 0), "at lon"),
        Arguments.of("a side that is touched", ring(0, 0, 2, 0, 2, 2, 1, 0, 0, 2), "at lon"),
        Arguments.of(
            "wider than a degree",
            List.of(new GeoPoint(10.0, 52.0), new GeoPoint(11.5, 52.0), new GeoPoint(11.0, 52.5)),
            "1.5° by 0.5°"),
        Arguments.of(
            "across the 180th meridian",
            List.of(
                new GeoPoint(179.99, 66.0),
                new GeoPoint(-179.99, 66.0),
                new GeoPoint(-179.99, 66.01),
                new GeoPoint(179.99, 66.01)),
            null),
        Arguments.of(
            "a bow tie across the 180th meridian",
            List.of(
                new GeoPoint(179.99, 66.0),
                new GeoPoint(-179.99, 66.01),
                new GeoPoint(-179.99, 66.0),
                new GeoPoint(179.99, 66.01)),
            "latitude 66.005°"));
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("outlines")
  void anOutlineIsOneRing(String name, List<GeoPoint> outline, String value) {
    List<Problem> problems = FactChecks.check(crop(outline, null, null, 2024));

    if (value == null) {
      assertThat(problems).isEmpty();
    } else {
      assertThat(problems).hasSize(1);
      assertThat(problems.get(0).field()).isEqualTo("outline");
      assertThat(InEnglish.value(problems.get(0))).contains(value);
    }
  }

  @Test
  void anOutlineOfTooManyCornersIsRefusedForItsSizeAlone() {
    List<GeoPoint> many =
        IntStream.range(0, 4001)
            .mapToObj(
                corner ->
                    new GeoPoint(
                        10 + 0.1 * Math.cos(corner * Math.PI / 2100),
                        52 + 0.1 * Math.sin(corner * Math.PI / 2100)))
            .toList();

    List<Problem> problems = FactChecks.check(crop(many, null, null, 2024));

    assertThat(problems)
        .extracting(Problem::value)
        .containsExactly(new Given.Corners(4001).coded());
  }

  /** Thousands of slanting teeth: every bounding box meets every other. */
  @Test
  @Timeout(60)
  void aCombMadeToBeSlowIsJudgedInTime() {
    List<GeoPoint> comb = new ArrayList<>();
    for (int tooth = 0; tooth < 1999; tooth++) {
      double shift = tooth * 1e-5;
      comb.add(new GeoPoint(10 + shift, 52.0));
      comb.add(new GeoPoint(10.9 + shift, 52.9));
    }
    comb.add(new GeoPoint(10.95, 51.95));

    assertThat(FactChecks.check(crop(comb, null, null, 2024)))
        .allSatisfy(problem -> assertThat(problem.field()).isEqualTo("outline"));
  }

  /** Each label is within its own limit, and so is their number. */
  @Test
  void aFactThatIsTooLargeAsAWholeIsRefused() {
    assertThat(FactChecks.check(labelled(20))).isEmpty();

    assertThat(FactChecks.check(labelled(400)))
        .singleElement()
        .satisfies(
            problem ->
                assertThat(InEnglish.sentence(problem))
                    .matches(
                        "The input is 4,0[0-9]{2},[0-9]{3} bytes; expected at most 1,048,576 bytes"
                            + " in all\\. "
                            + "Divide the fact into several, or shorten its texts\\."));
  }

  private static Dispatch labelled(int labelLength) {
    List<String> labels =
        IntStream.range(0, 10_000)
            .mapToObj(number -> String.format("%0" + labelLength + "d", number))
            .toList();
    return new Dispatch(HEADER, "L", "E", 25.0, labels);
  }

  @Test
  void aThousandFaultsAreCountedAndAFewWrittenOut() {
    List<GeoPoint> off = new ArrayList<>();
    IntStream.range(0, 1000).forEach(corner -> off.add(new GeoPoint(200.0, 52.0)));

    List<Problem> problems = FactChecks.check(crop(off, null, null, 2024));

    assertThat(problems).hasSize(26);
    assertThat(problems.get(25).value()).isEqualTo(new Given.FurtherProblems(975).coded());
  }

  @Test
  void aFactBuiltWithHolesIsRefusedForThem() {
    LotMerge holes = new LotMerge(null, null, "C");

    assertThat(FactChecks.check(holes))
        .extracting(Problem::field)
        .containsExactly("header", "inputs");
  }

  private static Arguments ok(SpecificRecord fact) {
    return Arguments.of(fact, List.of());
  }

  private static Arguments bad(SpecificRecord fact, String... fields) {
    return Arguments.of(fact, List.of(fields));
  }

  private static Arguments germination(
      int seeds, int secondSeedlings, String retestOf, String... fields) {
    return bad(
        new GerminationTest(
            HEADER,
            "L",
            "S",
            List.of(
                new GerminationReplicate(seeds, 20),
                new GerminationReplicate(seeds, secondSeedlings)),
            "E",
            retestOf,
            null,
            null),
        fields);
  }

  private static Arguments accreditation(String from, String to, String... fields) {
    return bad(
        new EnterpriseDeclared(
            HEADER,
            "LAB",
            "invented laboratory",
            EnterpriseKind.LABORATORY,
            List.of(
                new Accreditation(TestKind.PURITY, LocalDate.parse(from), LocalDate.parse(to)))),
        fields);
  }

  private static Arguments inspection(
      UnaryOperator<FieldInspection.Builder> change, String... fields) {
    FieldInspection.Builder visit =
        FieldInspection.newBuilder()
            .setHeader(HEADER)
            .setCropId("C1")
            .setVisit(1)
            .setBbchStage(65)
            .setPart(InspectedPart.FEMALE)
            .setOffTypePlants(3);
    return bad(change.apply(visit).build(), fields);
  }

  private static Arguments sterility(
      int examined, int shedding, Integer bagged, Integer withSeed, String... fields) {
    return bad(new SterilityCheck(HEADER, "C1", examined, shedding, bagged, withSeed), fields);
  }

  private static BlendComposition composition(int kernels, int pollinator) {
    return new BlendComposition(
        HEADER,
        "L",
        "S",
        CompositionMethod.MARKER,
        kernels,
        pollinator,
        "E",
        null,
        null,
        null,
        null);
  }

  private static BlendComposition composition(
      CompositionMethod method, Double falsePositive, Double falseNegative) {
    return BlendComposition.newBuilder(composition(400, 20))
        .setMethod(method)
        .setFalsePositivePercent(falsePositive)
        .setFalseNegativePercent(falseNegative)
        .build();
  }

  private static BlendComposition weighed(
      CompositionMethod method, Double examinedG, Double pollinatorG) {
    return BlendComposition.newBuilder(composition(400, 20))
        .setMethod(method)
        .setExaminedMassG(examinedG)
        .setPollinatorMassG(pollinatorG)
        .build();
  }

  private static PostControlResult postControl(
      PostControlMethod method, Double falsePositive, Double falseNegative) {
    return PostControlResult.newBuilder(postControl(2000, 3, null, 12))
        .setMethod(method)
        .setFalsePositivePercent(falsePositive)
        .setFalseNegativePercent(falseNegative)
        .build();
  }

  private static PostControlResult postControl(
      int plants, int offType, Integer shedding, Integer nonHybrid) {
    return new PostControlResult(
        HEADER,
        "L",
        PostControlMethod.PLOT,
        "plot 7",
        plants,
        true,
        offType,
        shedding,
        nonHybrid,
        null,
        null,
        null,
        null);
  }

  private static Conditioning conditioning(
      List<LotMass> inputs, List<LotMass> outputs, double screeningsKg) {
    return new Conditioning(HEADER, inputs, outputs, screeningsKg, null, null);
  }

  private static OtherSeedDetermination determination(Integer otherCereals, Integer ergot) {
    return new OtherSeedDetermination(
        HEADER, "L", "S", 500.0, 1, otherCereals, null, null, null, null, ergot, "E");
  }

  private static LotDeclared lotDeclared(int cropYear) {
    return new LotDeclared(
        HEADER, "L", "H", "A", Category.BASIC, "E", "eu-basic", cropYear, 1000.0);
  }

  private static HybridDeclared hybrid(
      String pollen, String lastSeed, double share, double tolerance) {
    return new HybridDeclared(
        HEADER,
        "H",
        List.of(
            new Component("A", ComponentKind.STERILE_LINE),
            new Component("B", ComponentKind.FERTILE_LINE),
            new Component("AB", ComponentKind.STERILE_SINGLE_CROSS),
            new Component("C", ComponentKind.RESTORER_POLLINATOR)),
        List.of(new Cross("AB", "A", "B"), new Cross(lastSeed, "AB", pollen)),
        share,
        ShareBasis.VIABLE_KERNELS,
        tolerance);
  }

  private static HybridDeclared hybridOfFertileFemale() {
    HybridDeclared hybrid = hybrid("C", "H", 5.0, 1.0);
    hybrid.put("crosses", List.of(new Cross("AB", "A", "B"), new Cross("H", "B", "C")));
    return hybrid;
  }

  private static FieldCropDeclared crop(
      List<GeoPoint> outline, String floweringFrom, String floweringTo, int cropYear) {
    return new FieldCropDeclared(
        HEADER,
        "C1",
        "Long Acre",
        "E",
        "H",
        CropRole.F1_MIXTURE,
        "H",
        "C",
        cropYear,
        Category.CERTIFIED,
        "eu-certified",
        outline,
        null,
        floweringFrom == null ? null : LocalDate.parse(floweringFrom),
        floweringTo == null ? null : LocalDate.parse(floweringTo),
        null,
        null);
  }

  private static PollenSourceSeen source(String seen, String ended, int cropYear) {
    return new PollenSourceSeen(
        HEADER,
        "P1",
        PollenSourceKind.VOLUNTEER_RYE,
        cropYear,
        SQUARE,
        LocalDate.parse(seen),
        ended == null ? null : LocalDate.parse(ended));
  }

  private static MoistureTest moisture(String lotId) {
    return new MoistureTest(HEADER, lotId, "S", 12.5, "E");
  }

  private static List<LotMass> lots(Object... idsAndMasses) {
    List<LotMass> lots = new ArrayList<>();
    for (int index = 0; index < idsAndMasses.length; index += 2) {
      lots.add(
          new LotMass(
              (String) idsAndMasses[index], ((Number) idsAndMasses[index + 1]).doubleValue()));
    }
    return lots;
  }

  /** Corners in hundredths of a degree from 10 east, 52 north. */
  private static List<GeoPoint> ring(int... offsets) {
    List<GeoPoint> ring = new ArrayList<>();
    for (int index = 0; index < offsets.length; index += 2) {
      ring.add(new GeoPoint(10 + offsets[index] / 100.0, 52 + offsets[index + 1] / 100.0));
    }
    return ring;
  }
}
