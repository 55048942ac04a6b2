package org.kornspur.api.web.laboratory;

import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.kornspur.api.web.form.Field;
import org.kornspur.api.web.form.FormView;
import org.kornspur.api.web.form.PreviewLine;

/**
 * A sample on the sheet of many.
 *
 * @param number its place on the sheet, from 1; it stands before the names of its fields
 * @param comesTo what its figures come to; empty where there are none or something is wrong
 * @param figures its figures in one text, to be compared with those that were shown before
 */
record GerminationLine(
    int number,
    LaboratorySample sample,
    FormView<LaboratoryForm> sheet,
    List<PreviewLine> comesTo,
    String figures) {
  static final String DOCUMENT = "header.sourceDocument";

  /** The fields of the four counts. */
  public List<Field> counts() {
    return sheet.fields().filter(field -> field.name().endsWith(".normalSeedlings")).toList();
  }

  /** The number of its report, where it has one of its own. */
  public Field document() {
    return field(DOCUMENT).orElseThrow();
  }

  /** The earlier test that it repeats. */
  public Optional<Field> retest() {
    return field("retestOf");
  }

  /** The same in words. */
  public Optional<String> repeats() {
    return retest()
        .flatMap(
            field -> field.options().stream().filter(one -> field.holds(one.value())).findFirst())
        .map(Field.Option::label);
  }

  /** Whether nothing was counted yet. */
  public boolean blank() {
    return counts().stream().allMatch(field -> field.value().isEmpty());
  }

  /** What is wrong with it, each with the field that it belongs to. */
  public List<String> wrong() {
    return Stream.concat(
            sheet.wrong().stream()
                .flatMap(
                    field -> field.faults().stream().map(f -> field.label() + ": " + f.text())),
            sheet.faults().stream().map(Field.Fault::text))
        .toList();
  }

  private Optional<Field> field(String name) {
    return sheet.fields().filter(field -> field.name().equals(name)).findFirst();
  }
}
