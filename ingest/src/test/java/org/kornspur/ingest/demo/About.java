package org.kornspur.ingest.demo;

import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.stream.Collectors;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.contract.FieldCropDeclared;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.contract.SubjectsNamed;

/** The page that says what the demo holds. */
final class About {
  private static final String HEAD =
      """
      # An invented enterprise

      Everything in this folder is invented: the hybrids, lines, fields, enterprises, people and
      results. No number here says anything of a real variety, field or firm. The fields lie on a
      drawn grid; who owns the land there has nothing to do with it.

      The ordinary loader takes the folder as it is, files in order of their names. It takes CSV,
      JSON and NDJSON; this page is passed over.

      """;
  private static final String SEASONS =
      """

      ## The seasons

      - `2022/` enterprises, hybrids, and the breeder's seed of every line (`P22-…`).
      - `2023/` sterile A lines beside their maintainers, maintainers, B lines and pollinators.
      - `2024/` single crosses A x B, pollinators again; in autumn the mixtures `M24-…`.
      - `2025/` hybrid seed from the mixtures; the second single crosses; post-control of the
        season before; in autumn the mixtures `M25-…`.
      - `2026/` hybrid seed again. The pollinator lot harvested this year is not grown in
        post-control before 2027.
      - `stories/` what goes wrong, each in a folder of its own.

      Lots: `P` declared, `R` raw harvest, `L` conditioned, `M` technical mixture, `G` merged, `X`
      admixed with open-pollinated rye, `-P1` a part that was split off. Crops: `C24-03`. The
      number after the letter is the year.

      ## Hybrids

      """;
  private static final String STORIES =
      """

      ## What to look at

      When all files are loaded, every lot and crop should be FIT that is not named here as NOT_FIT
      or EVIDENCE_OWED and does not descend from one that is NOT_FIT.

      """;
  private static final String FOOT =
      """

      ## Where it comes from

      The generator is `ingest/src/test/java/org/kornspur/ingest/demo/`; its class `WriteDemo`
      writes this folder again, byte for byte the same.
      """;

  private About() {}

  static String text(List<SpecificRecord> facts, List<Story> stories) {
    return HEAD + counts(facts) + SEASONS + hybrids() + STORIES + told(stories) + FOOT;
  }

  private static String counts(List<SpecificRecord> facts) {
    long lots = subjects(facts, Subject.Kind.LOT);
    long fields =
        facts.stream()
            .filter(FieldCropDeclared.class::isInstance)
            .map(fact -> ((FieldCropDeclared) fact).getFieldId())
            .distinct()
            .count();
    Map<FactType, Long> byType =
        facts.stream().collect(Collectors.groupingBy(FactType::of, Collectors.counting()));
    String table =
        Arrays.stream(FactType.values())
            .filter(type -> !type.isAct())
            .map(
                type -> "| " + type.contractName() + " | " + byType.getOrDefault(type, 0L) + " |\n")
            .collect(Collectors.joining());
    return String.format(
            Locale.ROOT,
            "It holds %,d facts on %d lots, %d crops on %d fields, and %d hybrids, without those of"
                + " the\nduplicate and broken files.\n\n",
            facts.size(),
            lots,
            subjects(facts, Subject.Kind.CROP),
            fields,
            DemoHybrid.ALL.size())
        + "| Fact | Number |\n|---|---|\n"
        + table;
  }

  static long subjects(List<SpecificRecord> facts, Subject.Kind kind) {
    return facts.stream()
        .flatMap(fact -> SubjectsNamed.of(fact).stream())
        .filter(subject -> subject.kind() == kind)
        .distinct()
        .count();
  }

  private static String hybrids() {
    return "| Hybrid | Rulebook | Pollinator | Share stated |\n|---|---|---|---|\n"
        + DemoHybrid.ALL.stream()
            .map(
                hybrid ->
                    "| %s | %s | %s | %s ± %s %% of %s |\n"
                        .formatted(
                            hybrid.id(),
                            hybrid.rulebookId(),
                            hybrid.pollinator(),
                            FactText.number(hybrid.sharePercent()),
                            FactText.number(hybrid.tolerancePoints()),
                            hybrid.basis().name().toLowerCase(Locale.ROOT).replace('_', ' ')))
            .collect(Collectors.joining());
  }

  private static String told(List<Story> stories) {
    return stories.stream().map(About::told).collect(Collectors.joining("\n"));
  }

  private static String told(Story story) {
    String looks =
        story.lookAt().stream()
            .map(look -> "- `" + look.subject() + "` " + look.standing().orElse("(not judged)"))
            .collect(Collectors.joining("\n"));
    return """
        ### %s (`stories/%s/`)

        %s

        %s

        %s
        """
        .formatted(story.title(), story.folder(), story.facts(), story.shouldShow(), looks);
  }
}
