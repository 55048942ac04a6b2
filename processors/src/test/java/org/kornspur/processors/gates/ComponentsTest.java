package org.kornspur.processors.gates;

import static org.assertj.core.api.Assertions.assertThat;
import static org.kornspur.processors.fixture.Dossiers.component;

import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.kornspur.contract.Category;
import org.kornspur.contract.ComponentKind;
import org.kornspur.contract.CropRole;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.dossier.Material;
import org.kornspur.processors.finding.ComponentsFinding;
import org.kornspur.processors.finding.Evidence;
import org.kornspur.processors.fixture.Dossiers;
import org.kornspur.processors.fixture.Facts;

class ComponentsTest {
  private static final ComponentsGate GATE = new ComponentsGate();

  @ParameterizedTest(name = "{0} sown with {1} and {2}: {3}")
  @CsvSource(
      textBlock =
          """
          # the scheme of H1: A1 x B1 gives AB1, AB1 x C1 the hybrid, lines are multiplied alone
          STERILE_FEMALE, A1,  B1,  MET
          STERILE_FEMALE, A1,  ,    OWED
          STERILE_FEMALE, B1,  ,    OWED
          STERILE_FEMALE, A1,  M1,  NOT_MET
          STERILE_FEMALE, M1,  B1,  NOT_MET
          POLLINATOR,     C1,  ,    MET
          POLLINATOR,     B1,  ,    NOT_MET
          MAINTAINER,     M1,  ,    MET
          MAINTAINER,     M1,  A1,  NOT_MET
          FERTILE_LINE,   B1,  ,    MET
          F1_MIXTURE,     MIX, ,    MET
          F1_MIXTURE,     AB1, C1,  NOT_MET
          F1_MIXTURE,     ,    ,    OWED
          """)
  void aCropIsSownWithWhatTheSchemeAsksFor(
      CropRole role, String first, String second, String expected) {
    Dossiers dossiers = Dossiers.crop("c1").with(Facts.crop("c1", role)).scheme();
    for (String seed : new String[] {first, second}) {
      if (seed != null) {
        dossiers
            .with(Facts.sowing("c1").of("lot-" + seed, 100))
            .parent("lot-" + seed, material(seed));
      }
    }
    Judged judged = Judged.by("EU", GATE, dossiers.dossier());
    assertThat(judged.worst()).isEqualTo(expected);
    judged.row(
        "components, %s sown with %s, %s".formatted(role, first, second), expected, expected);
  }

  @ParameterizedTest(name = "{0} for {1} sown with {2} of {3}: {4}")
  @CsvSource(
      textBlock =
          """
          # certified seed comes from basic seed or seed before it: from memory, 66/402/EEC art. 2
          F1_MIXTURE,     CERTIFIED, MIX, BASIC,     MET
          F1_MIXTURE,     CERTIFIED, MIX, PRE_BASIC, MET
          F1_MIXTURE,     CERTIFIED, MIX, CERTIFIED, NOT_MET
          # components hold at least the category of what is grown from them: common practice
          POLLINATOR,     BASIC,     C1,  PRE_BASIC, MET
          POLLINATOR,     BASIC,     C1,  BASIC,     MET
          POLLINATOR,     BASIC,     C1,  CERTIFIED, NOT_MET
          POLLINATOR,     PRE_BASIC, C1,  BREEDER,   MET
          POLLINATOR,     PRE_BASIC, C1,  BASIC,     NOT_MET
          STERILE_FEMALE, BASIC,     B1,  BASIC,     MET
          STERILE_FEMALE, BASIC,     B1,  CERTIFIED, NOT_MET
          STERILE_FEMALE, PRE_BASIC, B1,  BASIC,     NOT_MET
          """)
  void seedSownIsOfACategoryFromWhichTheCropIsGrown(
      CropRole role, Category crop, String seed, Category sown, String expected) {
    Dossiers dossiers =
        Dossiers.crop("c1")
            .with(
                Facts.crop("c1", role).with(declared -> declared.setCategory(crop)),
                Facts.sowing("c1").of("seed", 100))
            .scheme()
            .parent("seed", material(seed, sown));
    if (role == CropRole.STERILE_FEMALE) {
      dossiers
          .with(Facts.sowing("c1").of("female", 100))
          .parent("female", component("A1", Category.PRE_BASIC));
    }
    Judged judged = Judged.by("EU", GATE, dossiers.dossier());
    assertThat(judged.worst()).isEqualTo(expected);
    judged.row(
        "components, %s for %s sown with %s of %s".formatted(role, crop, seed, sown),
        expected,
        expected);
  }

  @ParameterizedTest
  @CsvSource({"BASIC, MET", "CERTIFIED, NOT_MET"})
  void aMixtureIsMadeOfBasicSeed(Category category, String expected) {
    Judged judged =
        Judged.by(
            "EU",
            GATE,
            Dossiers.lot("mix")
                .with(Facts.blend("mix").female("f", 950).pollinator("p", 50))
                .scheme()
                .parent("f", component("AB1", Category.BASIC))
                .parent("p", component("C1", category))
                .dossier());
    assertThat(judged.worst()).isEqualTo(expected);
  }

  @Test
  void waitsForTheSchemeAndForTheOriginOfWhatWasSown() {
    Dossiers dossiers =
        Dossiers.crop("c1")
            .with(Facts.crop("c1", CropRole.POLLINATOR), Facts.sowing("c1").of("l1", 100));
    Judged.by("EU", GATE, dossiers.dossier())
        .asksFor(new Evidence.MasterData(Subject.hybrid("H1")));
    Judged withScheme = Judged.by("EU", GATE, dossiers.scheme().dossier());
    assertThat(withScheme.worst()).isEqualTo("OWED");
    withScheme.asksFor(new Evidence.OriginOf(Subject.lot("l1")));
  }

  @Test
  void aRoleThatTheSchemeGivesAnotherComponentIsWrong() {
    Judged judged =
        Judged.by(
            "EU",
            GATE,
            Dossiers.crop("c1")
                .with(
                    Facts.crop("c1", CropRole.POLLINATOR)
                        .with(crop -> crop.setSeedComponentId(Facts.FERTILE_LINE)),
                    Facts.sowing("c1").of("l1", 100))
                .scheme()
                .parent("l1", component(Facts.FERTILE_LINE, Category.BASIC))
                .dossier());
    assertThat(judged.worst()).isEqualTo("NOT_MET");
    judged.found(
        new ComponentsFinding.NotOfRole(
            Facts.FERTILE_LINE, Optional.of(ComponentKind.FERTILE_LINE), CropRole.POLLINATOR));
  }

  @ParameterizedTest(name = "female {0}, pollinator {1}: {2}")
  @CsvSource(
      textBlock =
          """
          AB1, C1, MET
          C1, AB1, NOT_MET
          A1, C1, NOT_MET
          AB1, B1, NOT_MET
          AB1, , OWED
          """)
  void aMixtureHoldsTheSterileSingleCrossAndTheRestorer(
      String female, String pollinator, String expected) {
    Dossiers dossiers =
        Dossiers.lot("mix")
            .with(Facts.blend("mix").female("f", 950).pollinator("p", 50))
            .scheme()
            .parent("f", component(female, Category.BASIC));
    if (pollinator != null) {
      dossiers.parent("p", component(pollinator, Category.BASIC));
    }
    Judged judged = Judged.by("EU", GATE, dossiers.dossier());
    assertThat(judged.worst()).isEqualTo(expected);
    judged.row(
        "components, mixture of %s and %s".formatted(female, pollinator), expected, expected);
  }

  @Test
  void differentSeedPutTogetherIsWrong() {
    Judged judged =
        Judged.by(
            "EU",
            GATE,
            Dossiers.lot("m")
                .with(Facts.merge("m").of("a", 100).of("b", 100))
                .parent("a", component(Facts.SINGLE_CROSS, Category.BASIC))
                .parent("b", component(Facts.RESTORER, Category.BASIC))
                .dossier());
    assertThat(judged.worst()).isEqualTo("NOT_MET");
    judged.found(
        new ComponentsFinding.DifferentSeed(
            List.of(
                new ComponentsFinding.Seed(Material.Kind.COMPONENT, "AB1", Category.BASIC),
                new ComponentsFinding.Seed(Material.Kind.COMPONENT, "C1", Category.BASIC))));
  }

  @Test
  void theSameSeedPutTogetherIsRight() {
    Judged judged =
        Judged.by(
            "EU",
            GATE,
            Dossiers.lot("m")
                .with(Facts.conditioning().from("a", 100).from("b", 100).into("m", 180))
                .parent("a", Dossiers.f1())
                .parent("b", Dossiers.f1())
                .dossier());
    assertThat(judged.worst()).isEqualTo("MET");
  }

  @ParameterizedTest(name = "{0} merged into a mixture: {1}")
  @CsvSource({"MIX, MET", "C1, NOT_MET", "AB1, NOT_MET", ", OWED"})
  void whatIsMergedIntoAMixtureIsTheSameMixture(String seed, String expected) {
    Dossiers dossiers =
        Dossiers.lot("mix")
            .with(
                Facts.blend("mix").female("f", 950).pollinator("p", 50),
                Facts.merge("mix").of("q", 500).of("r", 500))
            .scheme()
            .parent("f", component(Facts.SINGLE_CROSS, Category.BASIC))
            .parent("p", component(Facts.RESTORER, Category.BASIC))
            .parent("r", Dossiers.mixture());
    if (seed != null) {
      dossiers.parent("q", material(seed, Category.BASIC));
    }
    assertThat(Judged.by("EU", GATE, dossiers.dossier()).worst()).isEqualTo(expected);
  }

  @Test
  void whatIsMergedIntoADeclaredLotIsTheSameSeed() {
    Judged judged =
        Judged.by(
            "EU",
            GATE,
            Dossiers.lot("m")
                .with(
                    Facts.declared("m", Facts.RESTORER, Category.BASIC, 500),
                    Facts.merge("m").of("a", 250).of("b", 250))
                .scheme()
                .parent("a", component(Facts.MAINTAINER, Category.BASIC))
                .parent("b", component(Facts.MAINTAINER, Category.BASIC))
                .dossier());
    assertThat(judged.worst()).isEqualTo("NOT_MET");
  }

  @ParameterizedTest(name = "{0} and {1} harvested into one lot: {2}")
  @CsvSource({"F1, F1, MET", "AB1, AB1, MET", "F1, M1, NOT_MET", "AB1, C1, NOT_MET", "AB1, , OWED"})
  void cropsHarvestedIntoOneLotAreOneMaterial(String first, String second, String expected) {
    Dossiers dossiers =
        Dossiers.lot("r")
            .with(Facts.harvest("c1", "r", 5000), Facts.harvest("c2", "r", 4000))
            .parentCrop("c1", grown(first));
    if (second != null) {
      dossiers.parentCrop("c2", grown(second));
    }
    assertThat(Judged.by("EU", GATE, dossiers.dossier()).worst()).isEqualTo(expected);
  }

  @Test
  void severalHarvestsOfOneCropNeedNoComparing() {
    Judged judged =
        Judged.by(
            "EU",
            GATE,
            Dossiers.lot("r")
                .with(Facts.harvest("c1", "r", 5000), Facts.harvest("c1", "r", 4000))
                .parentCrop("c1", Dossiers.f1())
                .dossier());
    assertThat(judged.worst()).isEqualTo("NONE");
  }

  private static Material grown(String seed) {
    return seed.equals("F1") ? Dossiers.f1() : component(seed, Category.BASIC);
  }

  @ParameterizedTest(name = "{0} with {1} of {2}: {3}")
  @CsvSource({
    "F1, OP1, CERTIFIED, MET",
    "F1, M1, BASIC, NOT_MET",
    "F1, F1, CERTIFIED, MET",
    "AB1, OP1, CERTIFIED, NOT_MET",
    "F1, , , OWED"
  })
  void onlyOpenPollinatedRyeIsAdmixedAndOnlyToHybridSeed(
      String hybrid, String added, Category category, String expected) {
    Dossiers dossiers =
        Dossiers.lot("m")
            .with(Facts.admixture("m").hybrid("a", 9000).openPollinated("op", 900))
            .parent("a", grown(hybrid));
    if (added != null) {
      dossiers.parent("op", added.equals("F1") ? Dossiers.f1() : component(added, category));
    }
    assertThat(Judged.by("EU", GATE, dossiers.dossier()).worst()).isEqualTo(expected);
  }

  @ParameterizedTest(name = "{0} kg of hybrid seed and {1} kg of open-pollinated rye: {2}")
  @CsvSource({
    // common practice, no source: trade texts tell of up to 10 %
    "9000, 1000, MET",
    "8990, 1010, NOT_MET",
    "500, 8000, NOT_MET"
  })
  void littleOpenPollinatedRyeIsAdmixed(double hybridKg, double addedKg, String expected) {
    Judged judged =
        Judged.by(
            "EU",
            GATE,
            Dossiers.lot("m")
                .with(Facts.admixture("m").hybrid("a", hybridKg).openPollinated("op", addedKg))
                .parent("a", Dossiers.f1())
                .parent("op", component("OP1", Category.CERTIFIED))
                .dossier());
    assertThat(judged.state("open-pollinated share")).isEqualTo(expected);
    judged.row(
        "components, %s kg hybrid, %s kg open-pollinated".formatted(hybridKg, addedKg),
        expected,
        judged.state("open-pollinated share"));
  }

  @Test
  void admixedOpenPollinatedRyeIsNoForeignSeed() {
    Judged judged =
        Judged.by(
            "EU",
            GATE,
            Dossiers.lot("m")
                .with(Facts.admixture("m").hybrid("a", 9000).openPollinated("op", 1000))
                .parent("a", Dossiers.f1())
                .parent("op", component("OP1", Category.CERTIFIED))
                .dossier());
    assertThat(judged.worst()).isEqualTo("MET");
  }

  private static Material material(String seed) {
    return seed.equals("MIX") ? Dossiers.mixture() : component(seed, Category.PRE_BASIC);
  }

  private static Material material(String seed, Category category) {
    if (!seed.equals("MIX")) {
      return component(seed, category);
    }
    Material mixture = Dossiers.mixture();
    return new Material(
        mixture.hybridId(),
        mixture.seedId(),
        mixture.kind(),
        category,
        mixture.cropYear(),
        mixture.rulebookId());
  }

  /** Common practice, no source: what a lot is called is in the breeder's scheme. */
  @ParameterizedTest(name = "bought in as {1} seed of {0}, scheme known: {2}: {3}")
  @CsvSource({
    "AB1, BASIC, true, NONE",
    "ZZ, BASIC, true, OWED",
    "ZZ, PRE_BASIC, true, OWED",
    "ab1, BASIC, true, OWED",
    // nobody knows it yet
    "ZZ, BASIC, false, NONE",
    // open-pollinated rye is a variety of its own
    "ZZ, CERTIFIED, true, NONE",
    "H1, CERTIFIED, true, NONE"
  })
  void aComponentThatWasBoughtInIsOneOfTheScheme(
      String seed, Category category, boolean isKnown, String expected) {
    Dossiers lot = Dossiers.lot("l1").with(Facts.declared("l1", seed, category, 1000));
    assertThat(Judged.by("EU", GATE, (isKnown ? lot.scheme() : lot).dossier()).state("component"))
        .isEqualTo(expected);
  }
}
