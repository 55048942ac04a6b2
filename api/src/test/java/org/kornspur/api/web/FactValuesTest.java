package org.kornspur.api.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Map;
import org.apache.avro.Schema;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.kornspur.api.text.DomainTerms;
import org.kornspur.api.text.FieldLabels;
import org.kornspur.api.text.Language;
import org.kornspur.api.text.LocalFormat;
import org.kornspur.contract.FactHeader;
import org.kornspur.contract.GeoPoint;
import org.kornspur.contract.LotMass;
import org.kornspur.contract.LotSplit;
import org.kornspur.contract.PollenSourceKind;
import org.kornspur.contract.PollenSourceSeen;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.intake.FieldLimits;

/** What a page shows of the fields of a fact. */
class FactValuesTest {
  private static final FactHeader HEADER =
      FactHeader.newBuilder()
          .setFactId("f-1")
          .setRecordedBy("p-1")
          .setHappenedAt(Instant.EPOCH)
          .setRecordedAt(Instant.EPOCH)
          .setSourceDocument("invented")
          .build();

  @Test
  void fieldsConstantsNumbersAndDaysAreWrittenAsTheReaderReadsThem() {
    PollenSourceSeen seen =
        PollenSourceSeen.newBuilder()
            .setHeader(HEADER)
            .setSourceId("NB-1")
            .setKind(PollenSourceKind.VOLUNTEER_RYE)
            .setCropYear(2026)
            .setOutline(List.of(new GeoPoint(14.5, 52.25), new GeoPoint(14.6, 52.3)))
            .setFirstSeenOn(LocalDate.of(2026, 6, 3))
            .build();

    Map<String, FactValues.Shown> shown = in(Language.GERMAN).of(seen);

    assertThat(shown).doesNotContainKey("endedOn");
    assertThat(shown.keySet()).noneMatch(path -> path.startsWith("header"));
    assertThat(shown.get("cropYear").value()).isEqualTo("2026");
    assertThat(shown.get("firstSeenOn").value()).isEqualTo("03.06.2026");
    assertThat(shown.get("outline").value()).isEqualTo("14.5 52.25, 14.6 52.3");
    assertThat(shown.get("kind").value())
        .isEqualTo(DomainTerms.in(Language.GERMAN).constant("PollenSourceKind", "VOLUNTEER_RYE"))
        .isNotEqualTo("VOLUNTEER_RYE");
    assertThat(shown.values()).noneMatch(FactValues.Shown::english);
    assertThat(shown.get("firstSeenOn").field())
        .isEqualTo(
            FieldLabels.in(Language.GERMAN).of(PollenSourceSeen.getClassSchema(), "firstSeenOn"));
  }

  @Test
  void theElementsOfAListAreCountedAndNothingIsRounded() {
    LotSplit split =
        LotSplit.newBuilder()
            .setHeader(HEADER)
            .setFromLotId("L-1")
            .setParts(List.of(new LotMass("L-1-A", 1234.5678), new LotMass("L-1-B", 2.0)))
            .build();

    Map<String, FactValues.Shown> shown = in(Language.ENGLISH).of(split);

    assertThat(shown.get("parts[1].massKg").value()).isEqualTo("1,234.5678");
    assertThat(shown.get("parts[2].lotId").value()).isEqualTo("L-1-B");
    assertThat(shown.get("parts[2].massKg").field()).contains(" 2 · ").endsWith(", kg");
  }

  /** A name that a person may fill in, or read of a fact, is never left in the contract's words. */
  @ParameterizedTest
  @EnumSource(FactType.class)
  void everyFieldThatAPersonFillsInHasAName(FactType type) {
    FieldLabels labels = FieldLabels.in(Language.GERMAN);
    for (Schema.Field field : type.schema().getFields()) {
      boolean isOfTheServer = List.of("header", "signature", "attestation").contains(field.name());
      assertThat(labels.has(type.schema(), field.name()))
          .as(type + "." + field.name())
          .isEqualTo(!isOfTheServer);
      Schema branch = FieldLimits.branchOf(field.schema());
      if (branch.getType() == Schema.Type.ENUM) {
        branch
            .getEnumSymbols()
            .forEach(
                symbol ->
                    assertThat(DomainTerms.in(Language.GERMAN).constant(branch.getName(), symbol))
                        .as(branch.getName() + "." + symbol)
                        .isNotEqualTo(symbol));
      }
    }
  }

  private static FactValues in(Language language) {
    return new FactValues(
        FieldLabels.in(language),
        DomainTerms.in(language),
        new LocalFormat(language, ZoneOffset.UTC));
  }
}
