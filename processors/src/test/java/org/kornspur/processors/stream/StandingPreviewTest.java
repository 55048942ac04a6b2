package org.kornspur.processors.stream;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.apache.avro.specific.SpecificRecord;
import org.junit.jupiter.api.Test;
import org.kornspur.contract.Category;
import org.kornspur.contract.Correction;
import org.kornspur.contract.CropRole;
import org.kornspur.contract.LotDeclared;
import org.kornspur.contract.Withdrawal;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.fixture.Facts;
import org.kornspur.processors.judging.Judge;
import org.kornspur.processors.judging.StandingPreview;
import org.kornspur.processors.standards.Rulebooks;
import org.kornspur.standing.LotStanding;

/**
 * What would follow from a fact is held against what does follow when the topology takes it in,
 * fact by fact, corrections and withdrawals too.
 */
class StandingPreviewTest {

  @Test
  void whatATrialTellsIsWhatComes() {
    List<SpecificRecord> story =
        List.of(
            Facts.laboratory("LAB1").at("2023-01-01").fact(),
            Facts.hybrid().at("2023-01-02").fact(),
            bought("F", Facts.SINGLE_CROSS, 4000).fact(),
            bought("P", Facts.RESTORER, 900).fact(),
            Facts.sampling("F", 40, 4000, 40).at("2023-10-02").fact(),
            Facts.germination("F", 92, 93, 94, 91).id("g1").at("2023-10-20").fact(),
            Facts.germination("F", 72, 73, 74, 71)
                .id("g2")
                .at("2023-10-20")
                .correcting("g1", "digits swapped")
                .fact(),
            Facts.withdrawal("g2").at("2023-10-21").fact(),
            Facts.germination("P", 95, 93, 94, 91).at("2023-10-20").fact(),
            Facts.kernelWeight("F", 3.1, 3.1, 3.0, 3.1).at("2023-10-20").fact(),
            Facts.kernelWeight("P", 3.0, 3.1, 3.0, 3.0).at("2023-10-20").fact(),
            Facts.conditioning()
                .from("F", 4000)
                .into("FC", 3700)
                .screenings(250)
                .at("2023-10-22")
                .fact(),
            Facts.blend("MIX")
                .female("FC", 1900)
                .pollinator("P", 100)
                .id("b1")
                .at("2023-10-25")
                .fact(),
            Facts.blend("MIX")
                .female("FC", 1900)
                .pollinator("P", 400)
                .id("b2")
                .at("2023-10-25")
                .correcting("b1", "second ticket was forgotten")
                .fact(),
            Facts.split("FC").into("FC-A", 600).into("FC-B", 600).at("2023-10-26").fact(),
            Facts.moisture("FC-A", 17).id("m1").at("2023-11-01").fact(),
            Facts.withdrawal("m1").at("2023-11-02").fact(),
            Facts.crop("C", CropRole.F1_MIXTURE).at("2023-10-30").fact(),
            Facts.sowing("C").of("MIX", 400).at("2023-10-31").fact(),
            Facts.harvest("C", "H", 30_000).id("h1").at("2024-08-01").fact(),
            Facts.harvest("C", "H2", 30_000)
                .id("h2")
                .at("2024-08-01")
                .correcting("h1", "another bin")
                .fact(),
            Facts.dispatch("FC-B", 700).at("2024-09-01").fact());
    Judge judge = Judge.by(Rulebooks.bundled());
    Map<String, SpecificRecord> byId = new HashMap<>();
    Set<Subject> told = new HashSet<>();
    int changed = 0;
    try (DrivenTopology topology = DrivenTopology.withRealRules()) {
      for (SpecificRecord fact : story) {
        nameSample(fact);
        SpecificRecord signed = DrivenTopology.by(DrivenTopology.QUALITY, fact);
        List<StandingPreview.Change> changes =
            new StandingPreview(judge, topology::dossier).of(signed, replaced(fact, byId));
        topology.accept(fact);
        topology.letPass(DrivenTopology.LONGEST_UNREST);
        assertThat(topology.quarantine()).isEmpty();
        byId.put(FactType.idOf(fact), fact);
        if (!StandingPreview.tells(FactType.of(fact))) {
          continue;
        }
        for (StandingPreview.Change change : changes) {
          LotStanding came = topology.standings().get(change.subject().toString());
          Optional<LotStanding> expected =
              change.after().map(StandingRecords::publicForm).map(after -> withRules(after, came));
          told.add(change.subject());
          if (expected.isEmpty()) {
            assertThat(topology.dossier(change.subject()).counting()).isEmpty();
          } else {
            assertThat(came).as("%s after %s", change.subject(), fact).isEqualTo(expected.get());
          }
          if (!change.before().equals(change.after())) {
            changed++;
          }
        }
      }
    }
    assertThat(told).hasSizeGreaterThan(8);
    assertThat(changed).isGreaterThan(25);
  }

  private static Facts.Plain<LotDeclared.Builder> bought(
      String lotId, String componentId, double massKg) {
    return Facts.declared(lotId, componentId, Category.BASIC, massKg)
        .with(lot -> lot.setCropYear(2023))
        .at("2023-10-01");
  }

  /** The fixtures' name of a sample is none that the intake takes. */
  private static void nameSample(SpecificRecord fact) {
    Optional.ofNullable(fact.getSchema().getField("sampleId"))
        .ifPresent(sample -> fact.put(sample.pos(), "S1"));
  }

  private static LotStanding withRules(LotStanding standing, LotStanding of) {
    return LotStanding.newBuilder(standing).setRules(of == null ? null : of.getRules()).build();
  }

  private static Optional<SpecificRecord> replaced(
      SpecificRecord fact, Map<String, SpecificRecord> byId) {
    return Optional.ofNullable(FactType.headerOf(fact).getCorrection())
        .map(Correction::getSupersedes)
        .or(
            () ->
                fact instanceof Withdrawal withdrawal
                    ? Optional.of(withdrawal.getWithdrawnFactId())
                    : Optional.empty())
        .map(byId::get);
  }
}
