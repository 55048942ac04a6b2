package org.kornspur.processors.stream;

import static org.assertj.core.api.Assertions.assertThat;
import static org.kornspur.processors.stream.InventedFacts.correcting;
import static org.kornspur.processors.stream.InventedFacts.lot;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import org.apache.avro.specific.SpecificRecord;
import org.junit.jupiter.api.Test;
import org.kornspur.contract.FactHeader;
import org.kornspur.processors.dossier.Entry.Superseded;

class RegisterEntryTest {
  private static final FactHeader LATER = correcting("later", 3, "earlier");

  @Test
  void whyByWhomAndWhenAreReadOutOfTheNote() {
    RegisterEntry entry =
        revokedBy(Map.of("later", RevocationNote.of(LATER, "a typing error").write()));

    assertThat(entry.superseded(lot("earlier", "L", 1.0), id -> false))
        .hasValue(
            new Superseded(
                "later",
                "a typing error",
                Optional.of(LATER.getRecordedBy()),
                Optional.of(LATER.getRecordedAt())));
  }

  @Test
  void aNoteOfAnEarlierVersionIsTheReasonAlone() {
    assertThat(
            revokedBy(Map.of("later", "a typing error"))
                .superseded(lot("earlier", "L", 1.0), id -> false))
        .hasValue(new Superseded("later", "a typing error"));
  }

  @Test
  void anActIsUndoneByAnotherActAlone() {
    SpecificRecord act =
        InventedActs.release("earlier", "L", InventedActs.signed(1, "p", 1, "a", List.of()));
    RegisterEntry entry = revokedBy(Map.of("a-withdrawal", "a whim", "b-act", "a complaint"));

    assertThat(entry.superseded(act, id -> false)).isEmpty();
    assertThat(entry.superseded(act, "b-act"::equals))
        .hasValue(new Superseded("b-act", "a complaint"));
  }

  private static RegisterEntry revokedBy(Map<String, String> notes) {
    return new RegisterEntry(Optional.empty(), List.of("lot:L"), new TreeMap<>(notes));
  }
}
