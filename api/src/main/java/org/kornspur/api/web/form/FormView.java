package org.kornspur.api.web.form;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import java.util.function.UnaryOperator;
import java.util.stream.Stream;
import org.kornspur.api.text.LocalFormat;
import org.kornspur.api.text.PageTexts;

/**
 * A form with what stands in it.
 *
 * @param <F> the forms to which it belongs
 * @param factId id of the fact that it makes, so that the same form sent twice counts once
 * @param corrects id of the fact that it corrects; empty of a new fact
 * @param fixed fields of the fact that nobody types
 * @param sections its fields, in the order in which they are filled in
 * @param faults what is wrong and belongs to no field
 */
public record FormView<F extends FactForm>(
    F form,
    String factId,
    Optional<String> corrects,
    Map<String, String> fixed,
    List<Section> sections,
    List<Field.Fault> faults) {

  /**
   * Fields that belong together.
   *
   * @param folded whether it may stand closed at first
   * @param columns fields of a row where it is a list that may have more rows; else 0
   * @param hint what stands under its legend; empty where nothing
   */
  public record Section(
      String name, String legend, boolean folded, List<Field> fields, int columns, String hint) {

    /** A section that is no list. */
    public Section(String name, String legend, boolean folded, List<Field> fields) {
      this(name, legend, folded, fields, 0, "");
    }

    /** The same with each field changed. */
    public Section mapping(UnaryOperator<Field> change) {
      return new Section(name, legend, folded, fields.stream().map(change).toList(), columns, hint);
    }

    /** Whether it is a list that may have more rows. */
    public boolean isList() {
      return columns > 0;
    }

    /** Whether it must stand open to show what is wrong. */
    public boolean open() {
      return !folded
          || fields.stream()
              .anyMatch(field -> !field.faults().isEmpty() || !field.value().isEmpty());
    }
  }

  /** An empty form for a fact that may correct another, with an id that no fact has. */
  public static <F extends FactForm> FormView<F> of(
      F form, Optional<String> corrects, Map<String, String> fixed, List<Section> sections) {
    return new FormView<>(
        form, UUID.randomUUID().toString(), corrects, fixed, List.copyOf(sections), List.of());
  }

  /** The same with each field changed. */
  public FormView<F> mapping(UnaryOperator<Field> change) {
    return new FormView<>(
        form,
        factId,
        corrects,
        fixed,
        sections.stream().map(section -> section.mapping(change)).toList(),
        faults);
  }

  /** The same that tells under each time in which zone it is typed. */
  public FormView<F> inZone(LocalFormat local, PageTexts ofForms) {
    String told = ofForms.of("inZone", local.zone().getId());
    return mapping(
        field ->
            field.kind() == Field.Kind.TIME
                ? field.hinted((field.hint() + " " + told).strip())
                : field);
  }

  /** The same as it was posted, with what is wrong by the field that it belongs to. */
  public FormView<F> posted(FormReader reader, Map<String, List<Field.Fault>> wrong) {
    Map<String, List<Field.Fault>> left = new LinkedHashMap<>(wrong);
    fields().forEach(field -> left.remove(field.name()));
    FormView<F> filled =
        mapping(
            field ->
                field.showing(
                    reader.value(field.name()), wrong.getOrDefault(field.name(), List.of())));
    return new FormView<>(
        form,
        reader.factId().orElse(factId),
        corrects,
        fixed,
        filled.sections,
        left.entrySet().stream()
            .flatMap(entry -> entry.getValue().stream().map(fault -> fault.at(entry.getKey())))
            .toList());
  }

  /** Whether anything is wrong. */
  public boolean refused() {
    return !faults.isEmpty() || !wrong().isEmpty();
  }

  /** The fields with which something is wrong, in order. */
  public List<Field> wrong() {
    return fields().filter(field -> !field.faults().isEmpty()).toList();
  }

  /** The fields in which something stands, in order. */
  public List<Field> filled() {
    return fields().filter(field -> !field.value().isEmpty()).toList();
  }

  /** All fields, in order. */
  public Stream<Field> fields() {
    return sections.stream().flatMap(section -> section.fields().stream());
  }
}
