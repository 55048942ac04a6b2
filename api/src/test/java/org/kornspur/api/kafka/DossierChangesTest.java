package org.kornspur.api.kafka;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.stream.Keys;

class DossierChangesTest {

  @Test
  void aKeyNamesASubjectOrBothEndsOfAnEdge() {
    Subject lot = Subject.lot("L-1/2");
    Subject crop = Subject.crop("C-1");

    assertThat(DossierChanges.named(lot.toString())).containsExactly(lot);
    assertThat(DossierChanges.named(Keys.edgeUp(lot, crop, "f-1"))).containsExactly(lot, crop);
    assertThat(DossierChanges.named(Keys.edgeDown(crop, lot, "f-1"))).containsExactly(crop, lot);
  }

  @Test
  void aKeyOfAnotherProgramNamesNothing() {
    assertThat(DossierChanges.named(null)).isEmpty();
    assertThat(DossierChanges.named("")).isEmpty();
    assertThat(DossierChanges.named("anything|at all")).isEmpty();
  }
}
