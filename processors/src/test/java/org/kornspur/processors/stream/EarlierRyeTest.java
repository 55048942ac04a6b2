package org.kornspur.processors.stream;

import static org.assertj.core.api.Assertions.assertThat;
import static org.kornspur.processors.stream.InventedFacts.crop;
import static org.kornspur.processors.stream.InventedFacts.source;
import static org.kornspur.processors.stream.InventedFacts.withdrawal;

import java.time.LocalDate;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.kornspur.contract.FieldCropDeclared;
import org.kornspur.contract.PollenSourceKind;
import org.kornspur.contract.PollenSourceSeen;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.standing.GateVerdict;
import org.kornspur.standing.VerdictState;

/** Rye of earlier years is found by its outline, whatever the field is called. */
class EarlierRyeTest {
  private final DrivenTopology topology = DrivenTopology.withRealRules();

  @AfterEach
  void close() {
    topology.close();
  }

  @Test
  void ryeOfTheYearBeforeOnTheSameGroundFailsTheCrop() {
    topology.accept(crop("f1", "C1", "M-1", 0));
    assertThat(previousCropping()).isEqualTo(VerdictState.MET);

    topology.accept(inYear(crop("f2", "C0", "M-1", 20), 2023));
    assertThat(previousCropping()).isEqualTo(VerdictState.NOT_MET);

    topology.accept(withdrawal("f3", 400, "f2"));
    assertThat(previousCropping()).isEqualTo(VerdictState.MET);
  }

  @Test
  void theEarlierCropMayBeOnRecordFirst() {
    topology.accept(inYear(crop("f2", "C0", "M-1", 20), 2023), crop("f1", "C1", "M-1", 0));

    assertThat(previousCropping()).isEqualTo(VerdictState.NOT_MET);
  }

  @Test
  void ryeThatSomebodySawCountsToo() {
    topology.accept(crop("f1", "C1", "M-1", 0), inYear(source("f2", "S1", 0), 2023));

    assertThat(previousCropping()).isEqualTo(VerdictState.NOT_MET);
  }

  @Test
  void volunteersAreNoCropAndTheNextFieldIsOtherGround() {
    PollenSourceSeen volunteers =
        PollenSourceSeen.newBuilder(inYear(source("f2", "S1", 0), 2023))
            .setKind(PollenSourceKind.VOLUNTEER_RYE)
            .build();
    topology.accept(
        crop("f1", "C1", "M-1", 0), volunteers, inYear(crop("f3", "C0", "M-1", 195), 2023));

    assertThat(previousCropping()).isEqualTo(VerdictState.MET);
  }

  @Test
  void aDeclarationThatTheRecordContradictsIsToBeCorrected() {
    topology.accept(crop("f1", "C1", "M-1", 0), inYear(crop("f2", "C0", "M-1", 0), 2021));

    assertThat(previousCropping()).isEqualTo(VerdictState.OWED);
  }

  @Test
  void cropsOfEarlierYearsAreNotToldOfEachOtherAgain() {
    topology.accept(
        inYear(crop("f1", "C1", "M-1", 0), 2022), inYear(crop("f2", "C2", "C-1", 3_000), 2022));
    topology.newStandings();

    topology.accept(crop("f3", "C3", "M-1", 0));

    assertThat(topology.newStandings())
        .extracting(told -> told.key)
        .doesNotContain("crop:C1", "crop:C2");
  }

  private static FieldCropDeclared inYear(FieldCropDeclared crop, int year) {
    return FieldCropDeclared.newBuilder(crop).setCropYear(year).build();
  }

  private static PollenSourceSeen inYear(PollenSourceSeen seen, int year) {
    return PollenSourceSeen.newBuilder(seen)
        .setCropYear(year)
        .setFirstSeenOn(LocalDate.of(year, 5, 20))
        .build();
  }

  private VerdictState previousCropping() {
    return topology.standing(Subject.crop("C1")).getVerdicts().stream()
        .filter(verdict -> verdict.getGate().equals("PREVIOUS_CROPPING"))
        .map(GateVerdict::getState)
        .findFirst()
        .orElseThrow();
  }
}
