package org.kornspur.processors.stream;

import static org.assertj.core.api.Assertions.assertThat;
import static org.kornspur.processors.stream.InventedFacts.correcting;
import static org.kornspur.processors.stream.InventedFacts.harvest;
import static org.kornspur.processors.stream.InventedFacts.lot;
import static org.kornspur.processors.stream.InventedFacts.withdrawal;

import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import org.apache.avro.specific.SpecificRecord;
import org.junit.jupiter.api.Test;
import org.kornspur.contract.FactHeader;
import org.kornspur.contract.SenderRole;
import org.kornspur.contract.Submission;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.processors.dossier.Entry.Superseded;

class RegisterEntryTest {
  private static final SpecificRecord LATER =
      harvest(correcting("later", 3, "earlier"), "C", "L", 1.0);

  @Test
  void whyByWhomAndWhenAreReadOutOfTheNote() {
    RegisterEntry entry =
        revokedBy(Map.of("later", RevocationNote.of(LATER, "a typing error").write()));

    assertThat(entry.superseded(lot("earlier", "L", 1.0), id -> false, id -> false, true))
        .hasValue(
            new Superseded(
                "later",
                "a typing error",
                Optional.of(FactType.headerOf(LATER).getRecordedBy()),
                Optional.of(FactType.headerOf(LATER).getRecordedAt()),
                Optional.of(FactType.HARVEST)));
  }

  @Test
  void aNoteOfAnEarlierVersionIsTheReasonAlone() {
    assertThat(
            revokedBy(Map.of("later", "a typing error"))
                .superseded(lot("earlier", "L", 1.0), id -> false, id -> false, true))
        .hasValue(new Superseded("later", "a typing error"));
  }

  @Test
  void onlyAProvenSenderSupersedesWhereProducersAreNotTrusted() {
    SpecificRecord proven =
        harvest(
            FactHeader.newBuilder(correcting("b-proven", 3, "earlier"))
                .setSubmission(
                    new Submission("quality", SenderRole.QUALITY, null, "key", "signature"))
                .build(),
            "C",
            "L",
            1.0);
    RegisterEntry entry =
        revokedBy(
            Map.of(
                "a-claimed", RevocationNote.of(LATER, "claimed").write(),
                "b-proven", RevocationNote.of(proven, "proven").write()));

    assertThat(entry.superseded(lot("earlier", "L", 1.0), id -> false, id -> false, false))
        .map(Superseded::byFactId)
        .hasValue("b-proven");
    assertThat(entry.superseded(lot("earlier", "L", 1.0), id -> false, id -> false, true))
        .map(Superseded::byFactId)
        .hasValue("a-claimed");
  }

  @Test
  void anEntryOfAnEarlierVersionIsReadAsOneWithoutProof() {
    RegisterEntry read =
        InternalSerdes.read(
            "{\"fingerprint\":\"f\",\"subjects\":[\"lot:L\"],\"revokedBy\":{\"w\":\"why\"}}"
                .getBytes(StandardCharsets.UTF_8),
            RegisterEntry.class);

    assertThat(read.proof()).isEmpty();
    assertThat(read.subjects()).containsExactly("lot:L");
  }

  @Test
  void anActIsUndoneByAnotherActAlone() {
    SpecificRecord act =
        InventedActs.release("earlier", "L", InventedActs.signed(1, "p", 1, "a", List.of()));
    RegisterEntry entry = revokedBy(Map.of("a-withdrawal", "a whim", "b-act", "a complaint"));

    assertThat(entry.superseded(act, id -> false, id -> false, true)).isEmpty();
    assertThat(entry.superseded(act, "b-act"::equals, id -> false, true))
        .hasValue(new Superseded("b-act", "a complaint"));
  }

  private static RegisterEntry revokedBy(Map<String, String> notes) {
    return new RegisterEntry(
        Optional.empty(), List.of("lot:L"), new TreeMap<>(notes), Optional.empty());
  }

  @Test
  void whatWasWithdrawnSupersedesNothing() {
    RegisterEntry earlier =
        revokedBy(Map.of("later", RevocationNote.of(LATER, "a typing error").write()));
    RegisterEntry later =
        revokedBy(
            Map.of("w", RevocationNote.of(withdrawal("w", 4, "later"), "by mistake").write()));

    assertThat(later.isWithdrawn(true)).isTrue();
    assertThat(later.isWithdrawn(false)).as("by nobody knows whom").isFalse();
    assertThat(earlier.isWithdrawn(true)).as("a correction is no withdrawal").isFalse();
    assertThat(
            earlier.superseded(
                lot("earlier", "L", 1.0), id -> false, id -> later.isWithdrawn(true), true))
        .isEmpty();
  }
}
