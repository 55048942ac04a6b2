package org.kornspur.processors.standards;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.dataformat.yaml.YAMLMapper;
import java.math.BigDecimal;
import java.time.DateTimeException;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.kornspur.contract.Category;
import org.kornspur.contract.CropRole;
import org.kornspur.processors.standards.Rulebooks.RulebookFile;
import org.kornspur.processors.statistics.SamplingIntensity;

/** Reads one rulebook file. The shape of the file is in {@code rulebook.schema.json}. */
final class RulebookReader {
  private static final YAMLMapper YAML = new YAMLMapper();

  private final RulebookFile file;
  private final JsonNode root;

  RulebookReader(RulebookFile file) {
    this.file = file;
    try {
      this.root = YAML.readTree(file.yaml());
    } catch (JsonProcessingException e) {
      throw new RulebookRefused(
          "%s: not readable as YAML: %s".formatted(file.name(), e.getMessage()), e);
    }
  }

  boolean isPractice() {
    return "practice".equals(root.path("status").asText());
  }

  WrittenRulebook read(Map<String, WrittenRulebook> loaded, Optional<WrittenRulebook> practice) {
    String id = text(root, "id", "");
    String edition = text(root, "edition", "");
    List<RulebookLine> lines = new ArrayList<>();
    JsonNode items = root.path("limits");
    if (!items.isArray() || items.isEmpty()) {
      throw refused("", "limits", "a list with at least one limit is needed");
    }
    for (int at = 0; at < items.size(); at++) {
      lines.add(line(items.get(at), "limits[%d]".formatted(at), id, edition));
    }
    return new WrittenRulebook(
        id,
        text(root, "title", ""),
        edition,
        List.copyOf(lines),
        nothingAsked(id, edition),
        judgedAs(id, edition),
        primarySamples(),
        base(loaded),
        practice);
  }

  /** A house draws its samples as the law has it, or it would test what stands for nothing. */
  private Optional<SamplingIntensity> primarySamples() {
    if (!root.has("primarySamples")) {
      return Optional.empty();
    }
    if (root.path("status").asText().equals("house")) {
      throw refused("", "primarySamples", "a house keeps to the table of the law");
    }
    try {
      return Optional.of(YAML.treeToValue(root.get("primarySamples"), SamplingIntensity.class));
    } catch (JsonProcessingException e) {
      throw new RulebookRefused(
          "%s: field primarySamples: %s".formatted(file.name(), e.getOriginalMessage()), e);
    }
  }

  private Optional<WrittenRulebook> base(Map<String, WrittenRulebook> loaded) {
    if (!root.has("tightens")) {
      return Optional.empty();
    }
    String baseId = root.get("tightens").asText();
    WrittenRulebook base = loaded.get(baseId);
    if (base == null) {
      throw refused(
          "",
          "tightens",
          "no rulebook '%s' is loaded before this one; loaded are %s"
              .formatted(baseId, loaded.keySet()));
    }
    return Optional.of(base);
  }

  private RulebookLine line(JsonNode item, String place, String id, String edition) {
    Quantity quantity = constant(Quantity.class, item, "quantity", place);
    String named = "%s (%s)".formatted(place, quantity);
    Limit.Sense sense = constant(Limit.Sense.class, item, "sense", named);
    String unit = text(item, "unit", named);
    if (!unit.equals(quantity.unit())) {
      throw refused(named, "unit", "'%s' is not %s".formatted(unit, quantity.unit()));
    }
    BigDecimal value = number(item, "value", named);
    Optional<String> beyond = Rulebooks.beyondWhatIsLookedFor(value, unit);
    if (beyond.isPresent()) {
      throw refused(named, "value", beyond.get());
    }
    Optional<BigDecimal> per =
        item.has("per") ? Optional.of(number(item, "per", named)) : Optional.empty();
    JsonNode source = item.path("source");
    Limit limit =
        new Limit(
            quantity,
            sense,
            per.map(p -> value.doubleValue() / p.doubleValue()).orElse(value.doubleValue()),
            unit,
            new Limit.Stated(value.doubleValue(), per.map(BigDecimal::doubleValue)),
            id,
            edition,
            isPractice() ? Limit.NO_SOURCE : text(source, "text", named + " source"),
            isPractice() ? text(item, "note", named) : text(source, "section", named + " source"),
            day(item, "inForceFrom", named),
            item.has("inForceTo") ? Optional.of(day(item, "inForceTo", named)) : Optional.empty(),
            verified(item, named),
            item.path("note").asText(""),
            secondSample(item, named));
    return new RulebookLine(
        limit,
        constants(Category.class, item, "categories", named, EnumSet.noneOf(Category.class)),
        constants(Rye.class, item, "rye", named, EnumSet.of(Rye.HYBRID, Rye.HYBRID_WITH_ADMIXTURE)),
        constants(CropRole.class, item, "roles", named, EnumSet.allOf(CropRole.class)),
        item.path("generation").asText(""),
        exception(item, named));
  }

  /** Only a law can allow more than the law that it carries out; a house never. */
  private boolean exception(JsonNode item, String place) {
    boolean exception = item.path("exception").asBoolean(false);
    if (exception && !root.path("status").asText().equals("law")) {
      throw refused(place, "exception", "only a text of law may allow more than another");
    }
    return exception;
  }

  private List<NothingAskedLine> nothingAsked(String id, String edition) {
    List<NothingAskedLine> lines = new ArrayList<>();
    JsonNode items = root.path("nothingAsked");
    for (int at = 0; at < items.size(); at++) {
      lines.add(nothingAskedLine(items.get(at), "nothingAsked[%d]".formatted(at), id, edition));
    }
    return List.copyOf(lines);
  }

  private NothingAskedLine nothingAskedLine(
      JsonNode item, String place, String id, String edition) {
    JsonNode source = item.path("source");
    NothingAsked nothing =
        new NothingAsked(
            id,
            edition,
            isPractice() ? Limit.NO_SOURCE : text(source, "text", place + " source"),
            isPractice() ? text(item, "note", place) : text(source, "section", place + " source"),
            day(item, "inForceFrom", place),
            item.has("inForceTo") ? Optional.of(day(item, "inForceTo", place)) : Optional.empty(),
            verified(item, place),
            item.path("note").asText(""));
    return new NothingAskedLine(
        nothing,
        constants(Quantity.class, item, "quantities", place, EnumSet.noneOf(Quantity.class)),
        constants(Category.class, item, "categories", place, EnumSet.noneOf(Category.class)),
        constants(Rye.class, item, "rye", place, EnumSet.of(Rye.HYBRID, Rye.HYBRID_WITH_ADMIXTURE)),
        constants(CropRole.class, item, "roles", place, EnumSet.allOf(CropRole.class)));
  }

  private List<CategorySubstitution> judgedAs(String id, String edition) {
    List<CategorySubstitution> all = new ArrayList<>();
    JsonNode items = root.path("judgedAs");
    for (int at = 0; at < items.size(); at++) {
      JsonNode item = items.get(at);
      String place = "judgedAs[%d]".formatted(at);
      JsonNode source = item.path("source");
      all.add(
          new CategorySubstitution(
              constant(Category.class, item, "category", place),
              constant(Category.class, item, "as", place),
              new CategorySubstitution.Source(
                  id,
                  edition,
                  text(source, "text", place + " source"),
                  text(source, "section", place + " source"),
                  day(item, "inForceFrom", place),
                  verified(item, place))));
    }
    return List.copyOf(all);
  }

  private boolean verified(JsonNode item, String place) {
    if (isPractice()) {
      return false;
    }
    JsonNode flag = item.path("verified");
    if (!flag.isBoolean()) {
      throw refused(place, "verified", "true where the value was read in the text, else false");
    }
    return flag.asBoolean();
  }

  private Optional<Limit.SecondSample> secondSample(JsonNode item, String place) {
    if (!item.has("secondSample")) {
      return Optional.empty();
    }
    JsonNode second = item.get("secondSample");
    String within = place + " secondSample";
    return Optional.of(
        new Limit.SecondSample(
            number(second, "firstAtMost", within).doubleValue(),
            number(second, "secondAtMost", within).doubleValue(),
            second.path("verified").asBoolean(true)));
  }

  private String text(JsonNode node, String field, String place) {
    String value = node.path(field).asText("").strip();
    if (value.isEmpty()) {
      throw refused(place, field, "is missing or empty");
    }
    return value;
  }

  private BigDecimal number(JsonNode node, String field, String place) {
    if (!node.path(field).isNumber()) {
      throw refused(place, field, "'%s' is not a number".formatted(node.path(field).asText()));
    }
    return node.get(field).decimalValue();
  }

  private LocalDate day(JsonNode node, String field, String place) {
    String value = text(node, field, place);
    try {
      return LocalDate.parse(value);
    } catch (DateTimeException e) {
      throw new RulebookRefused(
          "%s: %s: field %s: '%s' is not a day; write it as 2024-07-01"
              .formatted(file.name(), place, field, value),
          e);
    }
  }

  private <E extends Enum<E>> E constant(Class<E> type, JsonNode node, String field, String place) {
    return constant(type, text(node, field, place), field, place);
  }

  private <E extends Enum<E>> Set<E> constants(
      Class<E> type, JsonNode node, String field, String place, EnumSet<E> otherwise) {
    JsonNode list = node.path(field);
    if (list.isMissingNode() && !otherwise.isEmpty()) {
      return otherwise;
    }
    if (!list.isArray() || list.isEmpty()) {
      throw refused(place, field, "a list with at least one value is needed");
    }
    EnumSet<E> found = EnumSet.noneOf(type);
    list.forEach(value -> found.add(constant(type, value.asText(), field, place)));
    return found;
  }

  private <E extends Enum<E>> E constant(Class<E> type, String value, String field, String place) {
    return Arrays.stream(type.getEnumConstants())
        .filter(known -> known.name().equals(value.toUpperCase(Locale.ROOT)))
        .findFirst()
        .orElseThrow(
            () ->
                refused(
                    place,
                    field,
                    "'%s' is none of %s"
                        .formatted(value, Arrays.toString(type.getEnumConstants()))));
  }

  private RulebookRefused refused(String place, String field, String why) {
    return new RulebookRefused(
        "%s: %sfield %s: %s"
            .formatted(file.name(), place.isEmpty() ? "" : place + ": ", field, why));
  }
}
