package org.kornspur.ingest.sheet;

import java.math.BigDecimal;
import java.time.LocalDateTime;
import org.kornspur.ingest.problem.Given;
import org.kornspur.ingest.problem.IntakeReason;

/** What a cell holds. */
public sealed interface SheetCell {

  record Empty() implements SheetCell {}

  /** Without the spaces around it; never empty. */
  record Text(String text) implements SheetCell {}

  record Number(BigDecimal number) implements SheetCell {}

  /** A number that the workbook shows as a date, with a time of day or at midnight. */
  record Moment(LocalDateTime time) implements SheetCell {}

  record Flag(boolean flag) implements SheetCell {}

  /** Its value is not trusted: nobody typed it. */
  record Formula() implements SheetCell {}

  /** As in {@code #REF!}. */
  record Fault(String code) implements SheetCell {}

  /** It can be seen at once that it is not what it should be, and why. */
  record Unfit(String text, Given given, IntakeReason why) implements SheetCell {}

  /** The cell that a text makes. */
  static SheetCell of(String text) {
    String stripped = text.strip();
    return stripped.isEmpty() ? new Empty() : new Text(stripped);
  }

  /** What a person sees in it, as text; a formula has none. */
  default String shown() {
    if (this instanceof Text text) {
      return text.text();
    } else if (this instanceof Number number) {
      return number.number().toPlainString();
    } else if (this instanceof Moment moment) {
      return moment.time().toLocalTime().toSecondOfDay() == 0
          ? moment.time().toLocalDate().toString()
          : moment.time().toString();
    } else if (this instanceof Flag flag) {
      return Boolean.toString(flag.flag());
    } else if (this instanceof Unfit unfit) {
      return unfit.text();
    }
    return this instanceof Fault fault ? fault.code() : "";
  }
}
