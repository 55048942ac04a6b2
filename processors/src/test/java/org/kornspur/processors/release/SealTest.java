package org.kornspur.processors.release;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import org.junit.jupiter.api.Test;
import org.kornspur.contract.Category;
import org.kornspur.contract.Correction;
import org.kornspur.contract.FactHeader;
import org.kornspur.contract.LotDeclared;
import org.kornspur.contract.MoistureTest;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.statement.Value.Amount;
import org.kornspur.ingest.statement.Value.Fact;
import org.kornspur.ingest.statement.Value.Person;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.dossier.Entry;
import org.kornspur.processors.dossier.InheritedFinding;
import org.kornspur.processors.dossier.Material;
import org.kornspur.processors.finding.ActFinding;
import org.kornspur.processors.finding.Advice;
import org.kornspur.processors.finding.Aspect;
import org.kornspur.processors.finding.BasisFinding;
import org.kornspur.processors.finding.ComponentsFinding;
import org.kornspur.processors.finding.CountFinding;
import org.kornspur.processors.finding.Evidence;
import org.kornspur.processors.finding.MoistureFinding;
import org.kornspur.processors.finding.OriginFinding;
import org.kornspur.processors.verdict.Fitness;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.processors.verdict.Measured;
import org.kornspur.processors.verdict.Verdict;

/**
 * The seal against a text that was written by hand from the description in {@link
 * CanonicalDossier}, with fingerprints calculated from the description in {@code Fingerprint} by a
 * Python script, and hashed by {@code sha256sum}.
 */
class SealTest {
  private static final String SHA256SUM =
      "2dcd0ab4942fa75f7efc07fbdcb8ed9ce8446bc714f4aced276195fa214b7d0b";
  private static final String SHA256SUM_OF_VERSION_ONE =
      "589fe256577023cf38d63d9a16b04fc61b1a72282913f32295f8045dfd7e77a7";
  private static final Subject LOT = Subject.lot("L1");

  @Test
  void theCanonicalTextIsTheOneThatIsDescribed() throws IOException {
    assertThat(CanonicalDossier.text(dossier(entries()), assessment(14.5)))
        .isEqualTo(written("canonical-2.txt"));
  }

  @Test
  void versionOneIsStillTheOneThatWasDescribed() throws IOException {
    assertThat(CanonicalDossier.versionOne(dossier(entries()), assessment(14.5)))
        .isEqualTo(written("canonical-1.txt"));
  }

  @Test
  void theSealIsItsHash() {
    assertThat(Seal.of(dossier(entries()), assessment(14.5)).hex()).isEqualTo(SHA256SUM);
  }

  @Test
  void aSealOfEitherVersionIsOverTheDossierAndOverNoOther() {
    for (String seal : List.of(SHA256SUM, SHA256SUM_OF_VERSION_ONE)) {
      assertThat(Seal.isOver(seal, dossier(entries()), assessment(14.5))).isTrue();
      assertThat(Seal.isOver(seal, dossier(entries()), assessment(14.6))).isFalse();
    }
  }

  @Property
  void theOrderOfFactsMakesNoDifference(@ForAll Random random) {
    List<Entry> shuffled = new ArrayList<>(entries());
    Collections.shuffle(shuffled, random);

    assertThat(Seal.of(dossier(shuffled), assessment(14.5)).hex()).isEqualTo(SHA256SUM);
  }

  @Test
  void everyChangeMakesAnotherSeal() {
    List<Entry> oneLess = entries().subList(0, 2);
    List<Entry> stillCounting =
        entries().stream().map(entry -> new Entry(entry.fact(), Optional.empty())).toList();

    assertThat(
            List.of(
                SHA256SUM,
                Seal.of(dossier(oneLess), assessment(14.5)).hex(),
                Seal.of(dossier(stillCounting), assessment(14.5)).hex(),
                Seal.of(dossier(entries()), assessment(14.6)).hex()))
        .doesNotHaveDuplicates();
  }

  private static String written(String name) throws IOException {
    try (InputStream file = SealTest.class.getResourceAsStream(name)) {
      return new String(file.readAllBytes(), StandardCharsets.UTF_8);
    }
  }

  private static Dossier dossier(List<Entry> entries) {
    return new Dossier(LOT, entries, List.of());
  }

  private static List<Entry> entries() {
    return List.of(
        new Entry(
            new LotDeclared(
                head("f1", "2024-01-01T00:00:00Z", null),
                "L1",
                "HYB-1",
                "A-1",
                Category.BASIC,
                "breeder-1",
                "EU",
                2024,
                500.0),
            Optional.empty()),
        new Entry(
            moisture(head("f2", "2024-01-02T00:00:00Z", null), 41.5),
            Optional.of(new Entry.Superseded("f3", "typing error"))),
        new Entry(
            moisture(
                head("f3", "2024-01-03T00:00:00Z", new Correction("f2", "typing error")), 14.5),
            Optional.empty()));
  }

  private static MoistureTest moisture(FactHeader head, double percent) {
    return new MoistureTest(head, "L1", "S-1", percent, "lab-1");
  }

  private static FactHeader head(String id, String time, Correction correction) {
    Instant at = Instant.parse(time);
    return new FactHeader(id, "person-1", at, at, "sheet " + id, correction, null);
  }

  private static Assessment assessment(double moisture) {
    return new Assessment(
        Fitness.FIT,
        Optional.of(
            new Material("HYB-1", "A-1", Material.Kind.COMPONENT, Category.BASIC, 2024, "EU")),
        Optional.of(new Assessment.Book("EU", "2024-1")),
        List.of(
            new Verdict.Owed(
                Gate.ORIGIN,
                "",
                Optional.of(new Aspect.Ancestors().coded()),
                List.of(new Evidence.Recorded("the harvest").coded()),
                Optional.empty(),
                List.of(),
                List.of(
                    new OriginFinding.NoOrigin(LOT).coded(),
                    new OriginFinding.UnconfirmedCorrections(
                            List.of(
                                new OriginFinding.WouldSupersede(
                                    new Fact("f4"), Optional.empty(), new Fact("f3")),
                                new OriginFinding.WouldReplace(
                                    new Fact("f5"), new Person("person-1"))),
                            Optional.of(2))
                        .coded(),
                    new OriginFinding.UnknownRulebook("\"E\\U\"").coded(),
                    new ActFinding.SignedBy(
                            new Person("person-1"), Instant.parse("2024-01-04T10:00:00Z"))
                        .coded()),
                List.of(
                    new Advice.RogueAndInspect(LocalDate.parse("2024-07-15")).coded(),
                    new Advice.Report().coded())),
            new Verdict.Met(
                Gate.MOISTURE,
                "a\tb\\c",
                Optional.empty(),
                new Measured(
                    moisture,
                    "%",
                    0.5,
                    Optional.of(new Measured.Interval(14.3333333, 14.6666667, 0.95))),
                Optional.empty(),
                List.of("f3"),
                List.of(
                    new MoistureFinding.Found(Amount.percent(moisture)).coded(),
                    new CountFinding.InProportion(new Amount(0.5, ""), Amount.grams(1.0 / 3))
                        .coded(),
                    new ComponentsFinding.Seed(Material.Kind.COMPONENT, "A-1", Category.BASIC)
                        .coded()),
                List.of())),
        List.of(
            new InheritedFinding(
                Gate.POST_CONTROL_OF_BASIC_SEED,
                "",
                Optional.empty(),
                InheritedFinding.Weight.OWED,
                Subject.lot("L0"),
                List.of(Subject.lot("L0")),
                List.of("f9", "f0"),
                List.of(new BasisFinding.Recorded("not sealed").coded()))),
        List.of(),
        Optional.empty());
  }
}
