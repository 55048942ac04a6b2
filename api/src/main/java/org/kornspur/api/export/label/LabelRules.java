package org.kornspur.api.export.label;

import com.fasterxml.jackson.annotation.JsonProperty;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.dataformat.yaml.YAMLMapper;
import com.fasterxml.jackson.datatype.jdk8.Jdk8Module;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.kornspur.contract.Category;

/**
 * What a label must say by one body of rules, as written in {@code labels/*.yaml}.
 *
 * @param id short name
 * @param title of the text
 * @param rulebooks rulebooks whose seed is labelled by it
 * @param items what must stand on the label of a category, in the order of the text
 * @param categoryWords how the label calls a category
 * @param colours of labels by category
 * @param lotReference how the lot is numbered
 */
public record LabelRules(
    String id,
    String title,
    Set<String> rulebooks,
    Map<Category, List<Line>> items,
    Map<Category, String> categoryWords,
    Map<Category, Colour> colours,
    LotReference lotReference) {

  private static final ObjectMapper YAML = new YAMLMapper().registerModule(new Jdk8Module());
  private static final List<String> FILES = List.of("eu.yaml", "de.yaml", "oecd.yaml");

  /**
   * One item with its source.
   *
   * @param words what must stand there word for word; empty where it depends on the lot
   * @param verified whether it was read in the text named
   */
  public record Line(LabelItem item, Optional<String> words, String section, boolean verified) {}

  public record Colour(Category category, String colour, String section, boolean verified) {}

  /**
   * How the lot is numbered.
   *
   * @param form what a number looks like; empty where the text gives it no form
   */
  public record LotReference(
      String rule,
      @JsonProperty("pattern") Optional<Pattern> form,
      String section,
      boolean verified) {}

  /** A file as it is written. */
  private record Source(
      String id,
      String title,
      Set<String> rulebooks,
      List<Label> labels,
      Map<Category, String> categoryWords,
      List<Colour> colours,
      LotReference lotReference) {
    private record Label(List<Category> categories, List<Line> items) {}

    LabelRules rules() {
      Map<Category, List<Line>> items = new EnumMap<>(Category.class);
      labels.forEach(
          label -> label.categories().forEach(category -> items.put(category, label.items())));
      return new LabelRules(
          id,
          title,
          rulebooks,
          items,
          categoryWords,
          colours.stream().collect(Collectors.toMap(Colour::category, colour -> colour)),
          lotReference);
    }
  }

  /** All rules that this version brings. */
  public static List<LabelRules> all() {
    return FILES.stream().map(LabelRules::read).toList();
  }

  /** The rules for seed that is judged under a rulebook. */
  public static Optional<LabelRules> forRulebook(String rulebookId) {
    return all().stream().filter(rules -> rules.rulebooks().contains(rulebookId)).findFirst();
  }

  private static LabelRules read(String file) {
    try (InputStream yaml = LabelRules.class.getResourceAsStream("/labels/" + file)) {
      return YAML.readValue(yaml, Source.class).rules();
    } catch (IOException | IllegalArgumentException unreadable) {
      throw new UncheckedIOException(
          new IOException("labels/" + file + ": " + unreadable.getMessage(), unreadable));
    }
  }
}
