package org.kornspur.api.export.label;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.dataformat.yaml.YAMLMapper;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Pattern;
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

  private static final List<String> FILES = List.of("eu.yaml", "de.yaml", "oecd.yaml");

  /**
   * One item with its source.
   *
   * @param words what must stand there word for word; empty where it depends on the lot
   * @param verified whether it was read in the text named
   */
  public record Line(LabelItem item, Optional<String> words, String section, boolean verified) {}

  /** Colour of a label. */
  public record Colour(String colour, String section, boolean verified) {}

  /**
   * How the lot is numbered.
   *
   * @param form what a number looks like; empty where the text gives it no form
   */
  public record LotReference(
      String rule, Optional<Pattern> form, String section, boolean verified) {}

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
      return read(new YAMLMapper().readTree(yaml));
    } catch (IOException | IllegalArgumentException unreadable) {
      throw new UncheckedIOException(
          new IOException("labels/" + file + ": " + unreadable.getMessage(), unreadable));
    }
  }

  private static LabelRules read(JsonNode root) {
    Map<Category, List<Line>> items = new EnumMap<>(Category.class);
    for (JsonNode label : root.get("labels")) {
      List<Line> lines = new ArrayList<>();
      label.get("items").forEach(item -> lines.add(line(item)));
      label
          .get("categories")
          .forEach(name -> items.put(Category.valueOf(name.asText()), List.copyOf(lines)));
    }
    Map<Category, String> words = new EnumMap<>(Category.class);
    root.get("categoryWords")
        .properties()
        .forEach(word -> words.put(Category.valueOf(word.getKey()), word.getValue().asText()));
    Map<Category, Colour> colours = new EnumMap<>(Category.class);
    for (JsonNode colour : root.get("colours")) {
      colours.put(
          Category.valueOf(colour.get("category").asText()),
          new Colour(
              colour.get("colour").asText(),
              colour.get("section").asText(),
              colour.get("verified").asBoolean()));
    }
    Set<String> rulebooks = new HashSet<>();
    root.get("rulebooks").forEach(name -> rulebooks.add(name.asText()));
    JsonNode reference = root.get("lotReference");
    return new LabelRules(
        root.get("id").asText(),
        root.get("title").asText(),
        Set.copyOf(rulebooks),
        items,
        words,
        colours,
        new LotReference(
            reference.get("rule").asText(),
            Optional.ofNullable(reference.get("pattern"))
                .map(pattern -> Pattern.compile(pattern.asText())),
            reference.get("section").asText(),
            reference.get("verified").asBoolean()));
  }

  private static Line line(JsonNode item) {
    return new Line(
        LabelItem.valueOf(item.get("item").asText()),
        Optional.ofNullable(item.get("words")).map(JsonNode::asText),
        item.get("section").asText(),
        item.get("verified").asBoolean());
  }
}
