package org.kornspur.api.export.label;

import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import org.eclipse.microprofile.openapi.annotations.media.Schema;
import org.kornspur.api.text.ReaderWords;
import org.kornspur.contract.Conditioning;
import org.kornspur.contract.Dispatch;
import org.kornspur.contract.Sampling;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.dossier.Material;

/** What a label of a lot would have to say, and what of it is known here. */
@Schema(description = "What a label of this lot would have to say, and what of it is known")
public record LabelContent(
    String lotId,
    @Schema(description = "Text that says what a label must say") String rules,
    String category,
    @Schema(nullable = true) Sourced colour,
    List<Item> items,
    @Schema(description = "What is not known, each with what to do") List<String> missing,
    @Schema(description = "Label and serial numbers that dispatches of this lot name")
        List<String> labelNumbers,
    @Schema(description = "How the lot is to be numbered") Sourced lotReference,
    @Schema(description = "What the code on the label holds; it opens the lot's page") String link,
    @Schema(description = "To be read before anything is printed") List<String> cautions) {

  private static final DateTimeFormatter MONTH_AND_YEAR =
      DateTimeFormatter.ofPattern("MM/yyyy", Locale.ROOT);

  /** A statement with its source. */
  public record Sourced(
      String text,
      String section,
      @Schema(description = "Whether it was read in the text named") boolean verified) {}

  public record Item(
      LabelItem item,
      @Schema(description = "What it says; null where it is not known", nullable = true)
          String text,
      String section,
      @Schema(description = "Whether the item was read in the text named") boolean verified) {}

  /**
   * The content for a lot.
   *
   * @param hindrance why the lot may not be sold as it stands; empty where nothing speaks against
   *     it
   * @param link what the code on the label holds
   */
  public static LabelContent of(
      LabelRules rules,
      Dossier dossier,
      Material material,
      Optional<String> hindrance,
      String link,
      ReaderWords words) {
    String title = words.bundled(rules.title());
    List<Item> items = new ArrayList<>();
    List<String> missing = new ArrayList<>();
    List<LabelRules.Line> lines = rules.items().getOrDefault(material.category(), List.of());
    for (LabelRules.Line line : lines) {
      if (applies(line.item(), dossier, material)) {
        Optional<String> text = line.words().or(() -> known(line.item(), rules, dossier, material));
        items.add(new Item(line.item(), text.orElse(null), line.section(), line.verified()));
        if (text.isEmpty()) {
          missing.add(words.plain(new LabelStatement.Missing(line.item(), line.section())));
        }
      }
    }
    List<String> cautions = new ArrayList<>();
    cautions.add(words.plain(new LabelStatement.NotOfficial()));
    hindrance.ifPresent(cautions::add);
    if (lines.isEmpty()) {
      cautions.add(words.plain(new LabelStatement.NoLabel(title, material.category())));
    }
    if (items.stream().anyMatch(item -> !item.verified())) {
      cautions.add(words.plain(new LabelStatement.NotVerified()));
    }
    Set<String> labelNumbers = new LinkedHashSet<>();
    for (Dispatch dispatch : dossier.facts(Dispatch.class)) {
      for (String number : dispatch.getLabelNumbers()) {
        if (!labelNumbers.add(number)) {
          cautions.add(words.plain(new LabelStatement.NumberTwice(number)));
        }
      }
    }
    String lotId = dossier.subject().id();
    rules
        .lotReference()
        .form()
        .filter(form -> !form.matcher(lotId).matches())
        .ifPresent(
            form ->
                cautions.add(
                    words.plain(
                        new LabelStatement.OtherForm(
                            dossier.subject(), rules.lotReference().rule()))));
    return new LabelContent(
        lotId,
        title,
        material.category().name(),
        Optional.ofNullable(rules.colours().get(material.category()))
            .map(colour -> new Sourced(colour.colour(), colour.section(), colour.verified()))
            .orElse(null),
        List.copyOf(items),
        List.copyOf(missing),
        List.copyOf(labelNumbers),
        new Sourced(
            rules.lotReference().rule(),
            rules.lotReference().section(),
            rules.lotReference().verified()),
        link,
        List.copyOf(cautions));
  }

  private static boolean applies(LabelItem item, Dossier dossier, Material material) {
    return switch (item) {
      case TECHNICAL_MIXTURE -> material.kind() == Material.Kind.TECHNICAL_MIXTURE;
      case TREATMENT -> treatment(dossier).isPresent();
      default -> true;
    };
  }

  private static Optional<String> known(
      LabelItem item, LabelRules rules, Dossier dossier, Material material) {
    return switch (item) {
      case VARIETY -> Optional.of(material.seedId());
      case CATEGORY -> Optional.ofNullable(rules.categoryWords().get(material.category()));
      case LOT_REFERENCE ->
          rules
              .lotReference()
              .form()
              .filter(form -> form.matcher(dossier.subject().id()).matches())
              .map(form -> dossier.subject().id());
      case SAMPLED ->
          dossier
              .latest(Sampling.class)
              .map(
                  sampling ->
                      MONTH_AND_YEAR.format(
                          sampling.getHeader().getHappenedAt().atOffset(ZoneOffset.UTC)));
      case HYBRID_STATUS ->
          Optional.of(material.kind() == Material.Kind.COMPONENT ? "component" : "hybrid");
      case TREATMENT -> treatment(dossier);
      case NORM,
          COUNTRY,
          AUTHORITY,
          SERIAL_NUMBER,
          SPECIES,
          TECHNICAL_MIXTURE,
          COUNTRY_OF_PRODUCTION,
          PACKAGE_CONTENT,
          GENERATIONS_BEFORE_CERTIFIED ->
          Optional.empty();
    };
  }

  private static Optional<String> treatment(Dossier dossier) {
    return dossier.latest(Conditioning.class).map(Conditioning::getTreatment);
  }
}
