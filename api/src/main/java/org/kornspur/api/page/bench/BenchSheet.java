package org.kornspur.api.page.bench;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.UnaryOperator;
import java.util.stream.Stream;
import org.kornspur.api.page.fieldbook.Field;
import org.kornspur.api.page.fieldbook.Sheet.Section;

/**
 * A form with what stands in it.
 *
 * @param factId id of the fact that it makes, so that the same form sent twice counts once
 * @param corrects id of the fact that it corrects; empty of a new result
 * @param fixed fields of the fact that nobody types
 * @param sections its fields, in the order in which they are filled in
 * @param faults what is wrong and belongs to no field
 */
public record BenchSheet(
    BenchForm form,
    String factId,
    Optional<String> corrects,
    Map<String, String> fixed,
    List<Section> sections,
    List<Field.Fault> faults) {

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

  Stream<Field> fields() {
    return sections.stream().flatMap(section -> section.fields().stream());
  }

  BenchSheet mapping(UnaryOperator<Field> change, String id, List<Field.Fault> wrong) {
    return new BenchSheet(
        form,
        id,
        corrects,
        fixed,
        sections.stream().map(section -> section.mapping(change)).toList(),
        wrong);
  }
}
