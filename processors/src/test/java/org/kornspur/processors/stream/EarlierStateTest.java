package org.kornspur.processors.stream;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.dataformat.smile.databind.SmileMapper;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.apache.avro.Schema;
import org.apache.avro.message.SchemaStore;
import org.apache.kafka.common.serialization.Deserializer;
import org.junit.jupiter.api.Test;
import org.kornspur.ingest.statement.Coded;
import org.kornspur.processors.dossier.InheritedFinding;
import org.kornspur.processors.dossier.Report;
import org.kornspur.processors.finding.BasisFinding;
import org.kornspur.processors.ground.Plot;
import org.kornspur.processors.standards.Limit;
import org.kornspur.processors.verdict.Verdict;
import org.kornspur.standing.GateVerdict;
import org.kornspur.standing.LotStanding;
import org.kornspur.standing.VerdictState;

/**
 * State that the last release left which said in English what gates find. The files are what it
 * wrote of the invented enterprise, from which some tests were taken away.
 */
class EarlierStateTest {

  @Test
  void sentencesOfReportsAreReadAsTheyWereRecorded() throws IOException {
    byte[] kept = file("report-to-lot-L25-S01-P1.json");
    JsonNode written = new ObjectMapper().readTree(kept);

    Report.FromParent report = (Report.FromParent) ReportReader.read(kept);

    assertThat(InternalSerdes.requireWhole(report)).isEqualTo(report);
    assertThat(report.troubles())
        .extracting(InheritedFinding::findings)
        .isEqualTo(recorded(written.get("troubles"), "sentence"));
    assertThat(report.troubles()).allSatisfy(trouble -> assertThat(trouble.about()).isEmpty());
    assertThat(report.seedVerdicts())
        .extracting(Verdict::findings)
        .isEqualTo(recorded(written.get("seedVerdicts"), "sentence"));
    assertThat(report.seedVerdicts())
        .allSatisfy(
            verdict -> {
              assertThat(verdict.about()).isEmpty();
              assertThat(verdict.advice()).isEmpty();
            });
  }

  /** As the release before wrote them, which knew no component with too many off-types. */
  @Test
  void plotsAndNeighboursWithoutTheirOffTypesAreWhole() {
    String plot =
        """
        {"subject": "crop:C1", "cropYear": 2024, "outline": [{"lon": 10.0, "lat": 52.0}],
        "pollenId": "P1", "factId": "f1"}""";
    String near =
        """
        {"source": "crop:C1", "distanceM": 12.5, "areaHa": 2.0, "onCrop": {"lon": 10.0,
        "lat": 52.0}, "onSource": {"lon": 10.0, "lat": 52.0}, "factId": "f1"}""";

    Plot readPlot =
        InternalSerdes.requireWhole(
            InternalSerdes.read(plot.getBytes(StandardCharsets.UTF_8), Plot.class));
    Report.Neighbour readNear =
        InternalSerdes.requireWhole(
            InternalSerdes.read(near.getBytes(StandardCharsets.UTF_8), Report.Neighbour.class));

    assertThat(readPlot.tooManyOffTypes()).isEmpty();
    assertThat(readNear.sameComponent()).isEmpty();
  }

  @Test
  void whatReportsSayIsOwedIsEvidence() throws IOException {
    byte[] kept = file("report-to-lot-L25-S01-P1.json");

    Report.FromParent report = (Report.FromParent) ReportReader.read(kept);

    assertThat(report.seedVerdicts())
        .filteredOn(Verdict.Owed.class::isInstance)
        .singleElement()
        .satisfies(
            owed ->
                assertThat(((Verdict.Owed) owed).evidence())
                    .containsExactly(new BasisFinding.Recorded("a germination test").coded()));
  }

  @Test
  void limitsOfReportsKeepTheirNumber() throws IOException {
    Report.FromParent report =
        (Report.FromParent) ReportReader.read(file("report-to-lot-L25-S01-P1.json"));

    assertThat(report.seedVerdicts())
        .hasSizeGreaterThan(5)
        .allSatisfy(
            verdict -> {
              Limit limit = verdict.limit().orElseThrow();
              assertThat(limit.stated()).isEqualTo(Limit.Stated.plain(limit.value()));
              assertThat(limit.text()).isNotBlank();
            });
  }

  @Test
  void whatIsReadIsWrittenAndReadAgain() throws IOException {
    byte[] kept = file("report-to-lot-L25-S01-P1.json");
    Report report = ReportReader.read(kept);

    byte[] written = InternalSerdes.write(report, Report.class);

    assertThat(ReportReader.read(written)).isEqualTo(report);
    assertThat(written.length)
        .isLessThan(kept.length * 3 / 4)
        .isLessThan(file("report-to-lot-L25-S01-P1.smile").length);
  }

  /**
   * As the releases wrote it that came after plain JSON: the file is what the last of them made.
   */
  @Test
  void theSameReportInSmileIsTheSameReport() throws IOException {
    byte[] kept = file("report-to-lot-L25-S01-P1.smile");

    assertThat(kept).as("Smile, by its specification").startsWith(0x3A, 0x29, 0x0A);
    assertThat(ReportReader.read(kept))
        .isEqualTo(ReportReader.read(file("report-to-lot-L25-S01-P1.json")));
  }

  /** The change of a report was an object with its sender, and in a reminder nothing else. */
  @Test
  void changesOfReportsInSmileAreReadAndWrittenAnew() throws IOException {
    ObjectMapper smile = new SmileMapper();
    JsonNode report = new ObjectMapper().readTree(file("report-to-lot-L25-S01-P1.json"));
    Deserializer<ReportChange> reader = ReportChange.serde().deserializer();

    ReportChange read =
        reader.deserialize(
            "reports", smile.writeValueAsBytes(Map.of("sender", "lot:L25-S01", "report", report)));

    assertThat(read.sender()).isEqualTo("lot:L25-S01");
    assertThat(read.report()).hasValue(ReportReader.read(file("report-to-lot-L25-S01-P1.json")));
    assertThat(reader.deserialize("", ReportChange.serde().serializer().serialize("", read)))
        .isEqualTo(read);
    assertThat(reader.deserialize("", smile.writeValueAsBytes(Map.of("sender", "lot:A"))))
        .isEqualTo(new ReportChange("lot:A", Optional.empty()));
    assertThat(
            reader
                .deserialize("", smile.writeValueAsBytes(Map.of("sender", "reminder")))
                .isReminder())
        .isTrue();
  }

  @Test
  void aStandingKeepsItsSentencesAndHasNoFindings() throws IOException {
    SchemaStore.Cache schemas = new SchemaStore.Cache();
    schemas.addSchema(
        new Schema.Parser().parse(new String(file("standing.avsc"), StandardCharsets.UTF_8)));

    LotStanding standing =
        LotStanding.createDecoder(schemas).decode(file("standing-of-lot-L25-S01-P1.avro"));

    assertThat(standing.getSubject()).isEqualTo("lot:L25-S01-P1");
    assertThat(standing.getInherited())
        .isNotEmpty()
        .allSatisfy(
            trouble -> {
              assertThat(trouble.getSentence()).isNotBlank();
              assertThat(trouble.getFindings()).isEmpty();
            });
    assertThat(standing.getVerdicts())
        .allSatisfy(
            verdict -> {
              assertThat(verdict.getSentence()).isNotBlank();
              assertThat(verdict.getFindings()).isEmpty();
              assertThat(verdict.getEvidence()).isEmpty();
              assertThat(verdict.getAbout()).isNull();
            })
        .filteredOn(verdict -> verdict.getState() == VerdictState.OWED)
        .extracting(GateVerdict::getOwed)
        .containsExactly("a germination test");
  }

  private static List<List<Coded>> recorded(JsonNode list, String field) {
    List<List<Coded>> recorded = new ArrayList<>();
    list.forEach(
        one -> recorded.add(List.of(new BasisFinding.Recorded(one.get(field).asText()).coded())));
    assertThat(recorded).isNotEmpty();
    return recorded;
  }

  private static byte[] file(String name) throws IOException {
    try (InputStream file = EarlierStateTest.class.getResourceAsStream("version-one/" + name)) {
      return file.readAllBytes();
    }
  }
}
