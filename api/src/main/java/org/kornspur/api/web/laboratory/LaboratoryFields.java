package org.kornspur.api.web.laboratory;

import com.fasterxml.jackson.databind.JsonNode;
import java.math.BigDecimal;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDateTime;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.apache.avro.Schema;
import org.kornspur.api.text.LocalFormat;
import org.kornspur.api.text.PageTexts;
import org.kornspur.api.web.form.Field;
import org.kornspur.api.web.form.Field.Kind;
import org.kornspur.api.web.form.Field.Option;
import org.kornspur.api.web.form.FormParts;
import org.kornspur.api.web.form.FormView;
import org.kornspur.api.web.form.FormView.Section;
import org.kornspur.contract.GerminationReplicate;
import org.kornspur.contract.GerminationTest;
import org.kornspur.contract.MoistureTest;
import org.kornspur.contract.OtherSeedDetermination;
import org.kornspur.contract.PurityTest;
import org.kornspur.ingest.json.AvroJson;
import org.kornspur.processors.dossier.Entry;

/** The fields of each form: empty but for what is known beforehand, or filled to be corrected. */
record LaboratoryFields(
    LaboratorySamples.Whole sample,
    PageTexts texts,
    FormParts parts,
    LocalFormat form,
    Clock clock) {
  static final String SUPERSEDES = "header.correction.supersedes";

  /** Four replicates of 100 seeds, as the published ranges are for: 7 CFR 201.54 and 201.55. */
  private static final int REPLICATES = 4;

  LaboratoryFields(LaboratorySamples.Whole sample, PageTexts texts, LocalFormat form, Clock clock) {
    this(sample, texts, new FormParts(texts), form, clock);
  }

  /** A form for a new result, with an id that no fact has. */
  FormView<LaboratoryForm> sheet(LaboratoryForm of) {
    List<Section> sections = sections(of, REPLICATES, Optional.empty());
    sections.add(parts.record(localTime(clock.instant()), ""));
    return sheet(of, Optional.empty(), sections);
  }

  /** A form with what an earlier result says, to be corrected. */
  FormView<LaboratoryForm> correcting(LaboratoryForm of, Entry earlier) {
    JsonNode fact = AvroJson.write(earlier.fact());
    List<Section> sections =
        sections(of, Math.max(REPLICATES, fact.path("replicates").size()), Optional.of(earlier));
    sections.add(
        0,
        parts.section(
            "reason", parts.field("header.correction.reason", "reason", Kind.TEXT, true)));
    sections.add(
        parts.record(
            localTime(earlier.header().getHappenedAt()), earlier.header().getSourceDocument()));
    return sheet(of, Optional.of(earlier.header().getFactId()), sections)
        .mapping(
            field ->
                field.name().startsWith("header.")
                    ? field
                    : field.starting(valueIn(fact, field.name())));
  }

  /** When a result happened, as it stands in the form: to the minute. */
  String localTime(Instant happenedAt) {
    return LocalDateTime.ofInstant(happenedAt, form.zone())
        .truncatedTo(ChronoUnit.MINUTES)
        .toString();
  }

  private FormView<LaboratoryForm> sheet(
      LaboratoryForm of, Optional<String> corrects, List<Section> sections) {
    return FormView.of(
        of,
        corrects,
        Map.of(
            "lotId",
            sample.sampling().getLotId(),
            "sampleId",
            sample.sampling().getSampleId(),
            "laboratoryId",
            sample.sampling().getLaboratoryId()),
        sections);
  }

  private List<Section> sections(LaboratoryForm of, int replicates, Optional<Entry> corrected) {
    return new ArrayList<>(
        switch (of) {
          case GERMINATION -> germination(replicates, corrected);
          case PURITY -> List.of(purity());
          case OTHER_SEEDS -> otherSeeds();
          case MOISTURE ->
              List.of(
                  parts.section(
                      "moisture",
                      parts.decimal(MoistureTest.getClassSchema(), "moisturePercent", true)));
        });
  }

  private List<Section> germination(int replicates, Optional<Entry> corrected) {
    List<Section> sections = new ArrayList<>();
    for (int at = 0; at < replicates; at++) {
      sections.add(
          parts.numbered(
              "replicate",
              at,
              false,
              ofReplicate(at, "normalSeedlings"),
              ofReplicate(at, "seeds").starting("100")));
    }
    List<Option> tests =
        new ArrayList<>(
            sample.germinationTests(entry -> corrected.filter(entry::equals).isEmpty()).stream()
                .map(this::option)
                .toList());
    // a test that no longer counts can still be the one that was repeated
    corrected
        .map(entry -> ((GerminationTest) entry.fact()).getRetestOf())
        .filter(id -> tests.stream().noneMatch(option -> option.value().equals(id)))
        .ifPresent(id -> tests.add(new Option(id, id)));
    if (!tests.isEmpty()) {
      sections.add(
          parts.section(
              "retest",
              parts
                  .field("retestOf", Kind.CHOICE, false)
                  .with(tests)
                  .starting(tests.get(tests.size() - 1).value())));
    }
    return sections;
  }

  private Field ofReplicate(int at, String name) {
    return parts
        .field("replicates[%d].%s".formatted(at, name), name, Kind.WHOLE, true, at + 1)
        .within(GerminationReplicate.getClassSchema(), name);
  }

  private Option option(GerminationTest test) {
    return new Option(
        test.getHeader().getFactId(),
        texts.of(
            "testOf",
            form.day(test.getHeader().getHappenedAt()),
            test.getHeader().getSourceDocument()));
  }

  private Section purity() {
    Schema purity = PurityTest.getClassSchema();
    return parts.section(
        "masses",
        parts.decimal(purity, "pureSeedG", true),
        parts.decimal(purity, "inertMatterG", true),
        parts.decimal(purity, "otherSeedsG", true));
  }

  private List<Section> otherSeeds() {
    Schema counted = OtherSeedDetermination.getClassSchema();
    return List.of(
        parts.section(
            "sample",
            parts.decimal(counted, "sampleG", true),
            parts.whole(counted, "sampleNumber", true).starting("1")),
        parts.section(
            "counts",
            parts.whole(counted, "otherCereals", false),
            parts.whole(counted, "otherPlants", false),
            parts.whole(counted, "raphanusAndAgrostemma", false),
            parts.whole(counted, "wildOats", false),
            parts.whole(counted, "loliumTemulentum", false),
            parts.whole(counted, "ergotBodies", false)));
  }

  /** A value by the path of its field, as text; empty where it is absent. */
  private String valueIn(JsonNode fact, String path) {
    JsonNode value = fact.at("/" + path.replace("].", "/").replace('[', '/').replace('.', '/'));
    if (value.isMissingNode() || value.isNull()) {
      return "";
    }
    return value.isNumber() ? form.typed(new BigDecimal(value.asText())) : value.asText();
  }
}
