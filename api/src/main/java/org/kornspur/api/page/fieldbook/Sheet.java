package org.kornspur.api.page.fieldbook;

import java.util.List;
import java.util.Map;
import java.util.function.UnaryOperator;
import java.util.stream.Stream;

/**
 * A form with what stands in it.
 *
 * @param factId id of the fact that it makes, so that the same form sent twice counts once
 * @param fixed fields of the fact that nobody types
 * @param sections its fields, in the order in which they are filled in
 * @param faults what is wrong and belongs to no field
 */
public record Sheet(
    BookForm form,
    String factId,
    Map<String, String> fixed,
    List<Section> sections,
    List<Field.Fault> faults) {

  /**
   * Fields that belong together.
   *
   * @param folded whether it may stand closed at first
   */
  public record Section(String name, String legend, boolean folded, List<Field> fields) {

    /** The same with each field changed. */
    public Section mapping(UnaryOperator<Field> change) {
      return new Section(name, legend, folded, fields.stream().map(change).toList());
    }

    /** Whether it must stand open to show what is wrong. */
    public boolean open() {
      return !folded
          || fields.stream()
              .anyMatch(field -> !field.faults().isEmpty() || !field.value().isEmpty());
    }
  }

  /** Whether anything is wrong. */
  public boolean refused() {
    return !faults.isEmpty() || faulty().findAny().isPresent();
  }

  /** The fields with which something is wrong, in order. */
  public List<Field> wrong() {
    return faulty().toList();
  }

  private Stream<Field> faulty() {
    return fields().filter(field -> !field.faults().isEmpty());
  }

  Stream<Field> fields() {
    return sections.stream().flatMap(section -> section.fields().stream());
  }

  Sheet mapping(UnaryOperator<Field> change, String id, List<Field.Fault> wrong) {
    return new Sheet(
        form, id, fixed, sections.stream().map(section -> section.mapping(change)).toList(), wrong);
  }
}
