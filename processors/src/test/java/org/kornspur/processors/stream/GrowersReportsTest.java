package org.kornspur.processors.stream;

import static org.assertj.core.api.Assertions.assertThat;
import static org.kornspur.processors.stream.DrivenTopology.QUALITY;
import static org.kornspur.processors.stream.DrivenTopology.by;
import static org.kornspur.processors.stream.DrivenTopology.grower;
import static org.kornspur.processors.stream.InventedFacts.crop;
import static org.kornspur.processors.stream.InventedFacts.head;
import static org.kornspur.processors.stream.InventedFacts.source;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import org.apache.avro.specific.SpecificRecord;
import org.junit.jupiter.api.Test;
import org.kornspur.contract.PollenSourceSeen;
import org.kornspur.contract.SenderRole;
import org.kornspur.ingest.attestation.SignedSubmissions;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.standing.GateVerdict;
import org.kornspur.standing.VerdictState;

/** What one grower says of pollen near the crop of another, through the whole stream. */
class GrowersReportsTest {
  private static final SpecificRecord CROP = by(QUALITY, crop("f1", "C1", "M-1", 0));
  private static final SignedSubmissions.Sender INSPECTOR =
      new SignedSubmissions.Sender("inspector-1", SenderRole.INSPECTOR, Optional.empty());

  @Test
  void isEvidenceOwedUntilAnInspectorLooked() {
    SpecificRecord reported = by(grower("other"), source("f2", "S1", 700));

    assertThat(isolation(CROP, reported)).isEqualTo(VerdictState.OWED);
    assertThat(isolation(CROP, reported, by(INSPECTOR, later("f3", 700))))
        .isEqualTo(VerdictState.NOT_MET);
    assertThat(isolation(CROP, reported, by(INSPECTOR, later("f3", 50_000))))
        .isEqualTo(VerdictState.MET);
  }

  @Test
  void isConfirmedByTheSameFactFromQuality() {
    SpecificRecord reported = source("f2", "S1", 700);

    assertThat(isolation(CROP, by(grower("other"), reported), by(QUALITY, reported)))
        .isEqualTo(VerdictState.NOT_MET);
  }

  @Test
  void countsAtOnceAgainstTheGrowersOwnCropAndWhereItCameByAFile() {
    assertThat(isolation(CROP, by(grower("grower-1"), source("f2", "S1", 700))))
        .isEqualTo(VerdictState.NOT_MET);
    assertThat(isolation(CROP, source("f2", "S1", 700))).isEqualTo(VerdictState.NOT_MET);
  }

  @Test
  void movesNoPollenThatAnInspectorSaw() {
    assertThat(
            isolation(
                CROP,
                by(INSPECTOR, source("f2", "S1", 700)),
                by(grower("grower-1"), later("f3", 50_000))))
        .isEqualTo(VerdictState.NOT_MET);
  }

  @Test
  void aCropThatAnotherGrowerDeclaredIsOwedUntilItIsInspected() {
    SpecificRecord declared = by(grower("other"), crop("f2", "C2", "C-1", 700));
    SpecificRecord inspected =
        by(
            INSPECTOR,
            org.kornspur.contract.FieldInspection.newBuilder()
                .setHeader(head("f3", 160))
                .setCropId("C2")
                .setVisit(1)
                .setBbchStage(65)
                .setPart(org.kornspur.contract.InspectedPart.WHOLE_CROP)
                .setAreaM2(150.0)
                .setOffTypePlants(0)
                .build());

    assertThat(isolation(CROP, otherHolder(declared))).isEqualTo(VerdictState.OWED);
    assertThat(isolation(CROP, otherHolder(declared), inspected)).isEqualTo(VerdictState.NOT_MET);
  }

  private static SpecificRecord otherHolder(SpecificRecord declared) {
    org.kornspur.contract.FieldCropDeclared other =
        org.kornspur.contract.FieldCropDeclared.newBuilder(
                (org.kornspur.contract.FieldCropDeclared) declared)
            .setEnterpriseId("other")
            .build();
    return by(grower("other"), other);
  }

  private static PollenSourceSeen later(String factId, double northM) {
    return source(head(factId, 170), "S1", northM);
  }

  private static VerdictState isolation(SpecificRecord... facts) {
    List<VerdictState> found = new ArrayList<>();
    for (int seed = 0; seed < 4; seed++) {
      List<SpecificRecord> shuffled = new ArrayList<>(List.of(facts));
      Collections.shuffle(shuffled, new Random(seed));
      try (DrivenTopology topology = DrivenTopology.withRealRules()) {
        topology.acceptAsSent(shuffled.toArray(SpecificRecord[]::new));
        assertThat(topology.quarantine()).isEmpty();
        found.add(
            topology.standing(Subject.crop("C1")).getVerdicts().stream()
                .filter(verdict -> verdict.getGate().equals("ISOLATION"))
                .map(GateVerdict::getState)
                .findFirst()
                .orElseThrow());
      }
    }
    assertThat(found).containsOnly(found.get(0));
    return found.get(0);
  }
}
