package org.kornspur.api.web.form;

import java.util.Arrays;
import java.util.List;
import org.apache.avro.Schema;
import org.kornspur.api.text.PageTexts;
import org.kornspur.api.web.form.Field.Kind;
import org.kornspur.api.web.form.Field.Option;
import org.kornspur.api.web.form.FormView.Section;

/**
 * Makes fields and sections with their texts. A field has the label of its key, and the hint of the
 * key with {@code Hint} behind it, where there is one; a section {@code visit} has the legend
 * {@code sectionVisit}.
 */
public record FormParts(PageTexts texts) {
  public static final String HAPPENED_AT = "header.happenedAt";

  /**
   * A field.
   *
   * @param name path in the fact
   * @param key of its texts
   * @param arguments of its texts
   */
  public Field field(String name, String key, Kind kind, boolean required, Object... arguments) {
    String hint = key + "Hint";
    return Field.of(
        name,
        kind,
        texts.of(key, arguments),
        texts.has(hint) ? texts.of(hint, arguments) : "",
        required);
  }

  /** A field whose texts have its name as key. */
  public Field field(String name, Kind kind, boolean required) {
    return field(name, name, kind, required);
  }

  /** A whole number of this record, with the limits that the contract gives it. */
  public Field whole(Schema record, String name, boolean required, Object... arguments) {
    return field(name, name, Kind.WHOLE, required, arguments).within(record, name);
  }

  /** A number of this record, with the limits that the contract gives it. */
  public Field decimal(Schema record, String name, boolean required) {
    return field(name, Kind.DECIMAL, required).within(record, name);
  }

  /** One option for each constant, with its text under this key. */
  public List<Option> options(Enum<?>[] constants, String key) {
    return Arrays.stream(constants)
        .map(constant -> new Option(constant.name(), texts.of(key, constant)))
        .toList();
  }

  public Section section(String name, Field... fields) {
    return section(name, name, false, List.of(fields));
  }

  /** A section that may stand closed at first. */
  public Section folded(String name, Field... fields) {
    return section(name, name, true, List.of(fields));
  }

  /**
   * One of several sections of this name.
   *
   * @param at its place, from 0; texts count from 1
   */
  public Section numbered(String name, int at, boolean folded, Field... fields) {
    return section(name + "-" + at, name, folded, List.of(fields), at + 1);
  }

  /** When it happened, and the paper behind it. */
  public Section record(String happenedAt, String document) {
    return section(
        "record",
        field(HAPPENED_AT, "happenedAt", Kind.TIME, true).starting(happenedAt),
        field("header.sourceDocument", "sourceDocument", Kind.TEXT, true).starting(document));
  }

  private Section section(
      String name, String key, boolean folded, List<Field> fields, Object... arguments) {
    String legend = "section" + Character.toUpperCase(key.charAt(0)) + key.substring(1);
    return new Section(name, texts.of(legend, arguments), folded, fields);
  }
}
