package org.kornspur.api.web.form;

import java.util.List;
import java.util.Optional;
import org.apache.avro.Schema;
import org.kornspur.ingest.intake.FieldLimits;

/**
 * One field of a form.
 *
 * @param name path of the field in the fact, as in {@code sown[0].massKg}
 * @param hint what stands under it; empty where nothing
 * @param least least number allowed by the contract; empty where it is no number or has none
 * @param most greatest number allowed
 * @param options what there is to choose from, or what is offered while typing
 * @param list id of a list of the page that is offered while typing; empty where the field has its
 *     own options, or none
 * @param value as it stands in the field
 * @param faults what is wrong with it
 */
public record Field(
    String name,
    Kind kind,
    String label,
    String hint,
    boolean required,
    Optional<Double> least,
    Optional<Double> most,
    List<Option> options,
    String list,
    String value,
    List<Fault> faults) {

  /** How a field is typed and read. */
  public enum Kind {
    TEXT,
    WHOLE,
    DECIMAL,
    /** Day and minute, in the time zone of who types. */
    TIME,
    DAY,
    CHOICE,
    /** Yes, no, or nothing said. */
    FLAG,
    /** Corners of an outline, one a line: longitude, latitude. */
    CORNERS,
    /** Texts, one a line. */
    LINES
  }

  /** A value to choose or to take while typing. */
  public record Option(String value, String label) {}

  /** What is wrong, in the language of the page. */
  public record Fault(String text) {

    /** With the name of a field that the form does not show. */
    Fault at(String field) {
      return field.isEmpty() ? this : new Fault(field + ": " + text);
    }
  }

  /** Id of the element in the page. */
  public String id() {
    return "f-" + name.replaceAll("[^A-Za-z0-9]", "-");
  }

  /** Whether this value stands in the field. */
  public boolean holds(String option) {
    return value.equals(option);
  }

  /** With this in it and this wrong with it. */
  Field showing(String shown, List<Fault> wrong) {
    return new Field(
        name, kind, label, hint, required, least, most, options, list, shown, List.copyOf(wrong));
  }

  /** An empty field without limits. */
  public static Field of(String name, Kind kind, String label, String hint, boolean required) {
    return new Field(
        name,
        kind,
        label,
        hint,
        required,
        Optional.empty(),
        Optional.empty(),
        List.of(),
        "",
        "",
        List.of());
  }

  /** With these to choose from. */
  public Field with(List<Option> offered) {
    return new Field(name, kind, label, hint, required, least, most, offered, list, value, faults);
  }

  /** With this under it. */
  public Field hinted(String said) {
    return new Field(name, kind, label, said, required, least, most, options, list, value, faults);
  }

  /** With nothing under it. */
  public Field withoutHint() {
    return hinted("");
  }

  /** With what a list of the page offers while typing. */
  public Field offering(String listId) {
    return new Field(
        name, kind, label, hint, required, least, most, options, listId, value, faults);
  }

  /** Id of what is offered while typing; empty where nothing is. */
  public String offered() {
    return list.isEmpty() && !options.isEmpty() && kind != Kind.CHOICE ? id() + "-list" : list;
  }

  /** With this in it at first. */
  public Field starting(String shown) {
    return showing(shown, faults);
  }

  /** With the limits that the contract gives a number of this record, in its annotations. */
  public Field within(Schema record, String field) {
    Schema number = FieldLimits.branchOf(record.getField(field).schema());
    return new Field(
        name,
        kind,
        label,
        hint,
        required,
        limit(number, "min"),
        limit(number, "max"),
        options,
        list,
        value,
        faults);
  }

  private static Optional<Double> limit(Schema number, String annotation) {
    return Optional.ofNullable(number.getObjectProp(annotation))
        .map(limit -> ((Number) limit).doubleValue());
  }
}
