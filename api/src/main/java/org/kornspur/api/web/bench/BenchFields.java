package org.kornspur.api.web.bench;

import com.fasterxml.jackson.databind.JsonNode;
import java.time.Clock;
import java.time.LocalDateTime;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.IntStream;
import org.apache.avro.Schema;
import org.kornspur.api.text.LocalForm;
import org.kornspur.api.text.PageTexts;
import org.kornspur.api.web.fieldbook.Field;
import org.kornspur.api.web.fieldbook.Field.Kind;
import org.kornspur.api.web.fieldbook.Field.Option;
import org.kornspur.api.web.fieldbook.Sheet;
import org.kornspur.api.web.fieldbook.Sheet.Section;
import org.kornspur.contract.GerminationReplicate;
import org.kornspur.contract.GerminationTest;
import org.kornspur.contract.MoistureTest;
import org.kornspur.contract.OtherSeedDetermination;
import org.kornspur.contract.PurityTest;
import org.kornspur.contract.Sampling;
import org.kornspur.ingest.json.AvroJson;
import org.kornspur.processors.dossier.Entry;

/** The fields of each form: empty but for what is known beforehand, or filled to be corrected. */
final class BenchFields {
  static final String REASON = "header.correction.reason";
  static final String SUPERSEDES = "header.correction.supersedes";
  static final String HAPPENED_AT = "header.happenedAt";

  /** Four replicates of 100 seeds, as the published ranges are for: 7 CFR 201.54 and 201.55. */
  private static final int REPLICATES = 4;

  private final Sampling sampling;
  private final List<Entry> results;
  private final PageTexts texts;
  private final LocalForm form;
  private final Clock clock;

  BenchFields(Samples.Whole sample, PageTexts texts, LocalForm form, Clock clock) {
    this.sampling = sample.sampling();
    this.results = sample.counting();
    this.texts = texts;
    this.form = form;
    this.clock = clock;
  }

  /** A form for a new result, with an id that no fact has. */
  Sheet<BenchForm> sheet(BenchForm of) {
    LocalDateTime now =
        LocalDateTime.ofInstant(clock.instant(), form.zone()).truncatedTo(ChronoUnit.MINUTES);
    List<Section> sections = sections(of, REPLICATES, Optional.empty());
    sections.add(record(now.toString(), ""));
    return sheet(of, Optional.empty(), sections);
  }

  /** A form with what an earlier result says, to be corrected. */
  Sheet<BenchForm> correcting(BenchForm of, Entry earlier) {
    JsonNode fact = AvroJson.write(earlier.fact());
    List<Section> sections = new ArrayList<>();
    sections.add(
        new Section(
            "reason",
            texts.of("sectionReason"),
            false,
            List.of(
                Field.of(REASON, Kind.TEXT, texts.of("reason"), texts.of("reasonHint"), true))));
    sections.addAll(
        sections(of, Math.max(REPLICATES, fact.path("replicates").size()), Optional.of(earlier)));
    sections.add(record(localTime(earlier), earlier.header().getSourceDocument()));
    Sheet<BenchForm> empty = sheet(of, Optional.of(earlier.header().getFactId()), sections);
    return empty.mapping(
        field ->
            field.name().startsWith("header.")
                ? field
                : field.starting(valueIn(fact, field.name())));
  }

  /** When a result happened, as it stands in the form: to the minute. */
  String localTime(Entry earlier) {
    return LocalDateTime.ofInstant(earlier.header().getHappenedAt(), form.zone())
        .truncatedTo(ChronoUnit.MINUTES)
        .toString();
  }

  private Sheet<BenchForm> sheet(BenchForm of, Optional<String> corrects, List<Section> sections) {
    return Sheet.of(
        of,
        corrects,
        Map.of(
            "lotId",
            sampling.getLotId(),
            "sampleId",
            sampling.getSampleId(),
            "laboratoryId",
            sampling.getLaboratoryId()),
        sections);
  }

  private List<Section> sections(BenchForm of, int replicates, Optional<Entry> corrected) {
    return new ArrayList<>(
        switch (of) {
          case GERMINATION -> germination(replicates, corrected);
          case PURITY -> purity();
          case OTHER_SEEDS -> otherSeeds();
          case MOISTURE -> moisture();
        });
  }

  private List<Section> germination(int replicates, Optional<Entry> corrected) {
    Schema replicate = GerminationReplicate.getClassSchema();
    List<Section> sections = new ArrayList<>();
    IntStream.range(0, replicates)
        .forEach(
            at ->
                sections.add(
                    new Section(
                        "replicate-" + at,
                        texts.of("sectionReplicate", at + 1),
                        false,
                        List.of(
                            Field.of(
                                    "replicates[%d].normalSeedlings".formatted(at),
                                    Kind.WHOLE,
                                    texts.of("normalSeedlings", at + 1),
                                    "",
                                    true)
                                .within(replicate.getField("normalSeedlings").schema()),
                            Field.of(
                                    "replicates[%d].seeds".formatted(at),
                                    Kind.WHOLE,
                                    texts.of("seeds", at + 1),
                                    "",
                                    true)
                                .within(replicate.getField("seeds").schema())
                                .starting("100")))));
    List<Option> tests =
        new ArrayList<>(
            results.stream()
                .filter(entry -> corrected.filter(entry::equals).isEmpty())
                .map(Entry::fact)
                .filter(GerminationTest.class::isInstance)
                .map(GerminationTest.class::cast)
                .map(
                    test ->
                        new Option(
                            test.getHeader().getFactId(),
                            texts.of(
                                "testOf",
                                form.day(test.getHeader().getHappenedAt()),
                                test.getHeader().getSourceDocument())))
                .toList());
    // a test that no longer counts can still be the one that was repeated
    corrected
        .map(entry -> ((GerminationTest) entry.fact()).getRetestOf())
        .filter(id -> tests.stream().noneMatch(option -> option.value().equals(id)))
        .ifPresent(id -> tests.add(new Option(id, id)));
    if (!tests.isEmpty()) {
      sections.add(
          new Section(
              "retest",
              texts.of("sectionRetest"),
              false,
              List.of(
                  Field.of(
                          "retestOf",
                          Kind.CHOICE,
                          texts.of("retestOf"),
                          texts.of("retestOfHint"),
                          false)
                      .with(tests)
                      .starting(tests.get(tests.size() - 1).value()))));
    }
    return sections;
  }

  private List<Section> purity() {
    Schema schema = PurityTest.getClassSchema();
    return List.of(
        new Section(
            "masses",
            texts.of("sectionMasses"),
            false,
            List.of(
                number(schema, "pureSeedG", Kind.DECIMAL, texts.of("pureSeedG"), "", true),
                number(schema, "inertMatterG", Kind.DECIMAL, texts.of("inertMatterG"), "", true),
                number(schema, "otherSeedsG", Kind.DECIMAL, texts.of("otherSeedsG"), "", true))));
  }

  private List<Section> otherSeeds() {
    Schema schema = OtherSeedDetermination.getClassSchema();
    return List.of(
        new Section(
            "sample",
            texts.of("sectionCountedSample"),
            false,
            List.of(
                number(schema, "sampleG", Kind.DECIMAL, texts.of("sampleG"), "", true),
                number(
                        schema,
                        "sampleNumber",
                        Kind.WHOLE,
                        texts.of("sampleNumber"),
                        texts.of("sampleNumberHint"),
                        true)
                    .starting("1"))),
        new Section(
            "counts",
            texts.of("sectionCounts"),
            false,
            List.of(
                count(schema, "otherCereals", texts.of("otherCereals")),
                count(schema, "otherPlants", texts.of("otherPlants")),
                count(schema, "raphanusAndAgrostemma", texts.of("raphanusAndAgrostemma")),
                count(schema, "wildOats", texts.of("wildOats")),
                count(schema, "loliumTemulentum", texts.of("loliumTemulentum")),
                count(schema, "ergotBodies", texts.of("ergotBodies")))));
  }

  private List<Section> moisture() {
    return List.of(
        new Section(
            "moisture",
            texts.of("sectionMoisture"),
            false,
            List.of(
                number(
                    MoistureTest.getClassSchema(),
                    "moisturePercent",
                    Kind.DECIMAL,
                    texts.of("moisturePercent"),
                    texts.of("moistureHint"),
                    true))));
  }

  private Section record(String happenedAt, String document) {
    return new Section(
        "record",
        texts.of("sectionRecord"),
        false,
        List.of(
            Field.of(
                    HAPPENED_AT,
                    Kind.TIME,
                    texts.of("happenedAt"),
                    texts.of("happenedAtHint"),
                    true)
                .starting(happenedAt),
            Field.of(
                    "header.sourceDocument",
                    Kind.TEXT,
                    texts.of("sourceDocument"),
                    texts.of("sourceDocumentHint"),
                    true)
                .starting(document)));
  }

  private Field count(Schema schema, String name, String label) {
    return number(schema, name, Kind.WHOLE, label, "", false);
  }

  private static Field number(
      Schema record, String name, Kind kind, String label, String hint, boolean required) {
    return Field.of(name, kind, label, hint, required).within(record.getField(name).schema());
  }

  /** A value by the path of its field, as text; empty where it is absent. */
  private static String valueIn(JsonNode fact, String path) {
    JsonNode value = fact.at("/" + path.replace("].", "/").replace('[', '/').replace('.', '/'));
    return value.isMissingNode() || value.isNull() ? "" : value.asText();
  }
}
