package org.kornspur.ingest.problem;

import java.time.Instant;
import java.time.LocalDate;
import java.util.Optional;
import org.kornspur.ingest.statement.Statement;
import org.kornspur.ingest.statement.Value.Amount;

/** What was given where something else is expected: the value, or a description of it. */
public sealed interface Given extends Statement {
  record Absent() implements Given {}

  /** Short enough to be shown, with every character that does not show itself as its code. */
  record Text(String text) implements Given {}

  /** The beginning of a text of so many characters. */
  record LongText(String beginning, int characters) implements Given {}

  record Figure(Amount number) implements Given {}

  record Day(LocalDate day) implements Given {}

  record Time(Instant time) implements Given {}

  /** The words true, false or null of JSON. */
  record Literal(String literal) implements Given {}

  record ObjectOf(int fields) implements Given {}

  record ListOf(int elements) implements Given {}

  record Field(String name) implements Given {}

  record Corners(int count) implements Given {}

  record DistinctCorners(int count) implements Given {}

  record Extent(Amount width, Amount height) implements Given {}

  /** Where sides of an outline meet. */
  record SidesMeetAt(Amount lon, Amount lat) implements Given {}

  record CornerAt(Amount lon, Amount lat) implements Given {}

  record Crosses(int count) implements Given {}

  record MassWithScreenings(Amount mass) implements Given {}

  record LotAndCrop() implements Given {}

  record NeitherLotNorCrop() implements Given {}

  /** A signature that is not one of this trusted key. */
  record OtherSignature(String key) implements Given {}

  record SignatureOfUntrusted(String key) implements Given {}

  record Submission() implements Given {}

  /** A record of a topic without a value. */
  record NoValue() implements Given {}

  record RecordType(String type) implements Given {}

  record Bytes(long count) implements Given {}

  record BytesNotUtf8(long count) implements Given {}

  record HashedBytes(long count, String sha256) implements Given {}

  /** What the reader of JSON says, in English, and where. */
  record NotJson(Optional<Integer> line, Optional<Integer> column, String detail)
      implements Given {}

  record FurtherProblems(int count) implements Given {}

  record EmptyFile() implements Given {}

  record LongLine(long bytes, int kept) implements Given {}

  record LargeFile(int over) implements Given {}

  record MoreText() implements Given {}

  record SymbolicLink() implements Given {}

  record OtherFile() implements Given {}

  /** A file that the system does not let be read, in its words. */
  record UnreadableFile(String detail) implements Given {}

  record TwoColumns() implements Given {}

  record UnusableHeader() implements Given {}

  record Cells(int count) implements Given {}

  record Rows(int count) implements Given {}

  record OpenQuotationMark() implements Given {}

  record Formula() implements Given {}

  /** A file that a person sent to be read as a table. */
  record SentFile(String name) implements Given {}

  record Sheet(String name) implements Given {}

  /** What an earlier release recorded in English. */
  record Recorded(String words) implements Given {}

  /** Most characters of a text that are shown. */
  int SHOWN_CHARACTERS = 120;

  /** A value of a fact in Avro's Java form, or a statement that describes it. */
  static Statement of(Object value) {
    if (value == null) {
      return new Absent();
    } else if (value instanceof Statement described) {
      return described;
    } else if (value instanceof Number number) {
      return new Figure(new Amount(number.doubleValue(), ""));
    } else if (value instanceof LocalDate day) {
      return new Day(day);
    } else if (value instanceof Instant time) {
      return new Time(time);
    }
    return text(value.toString(), false);
  }

  /** A text as it may be shown to a person. */
  static Given text(CharSequence text, boolean asciiOnly) {
    VisibleText visible = VisibleText.of(text, asciiOnly, SHOWN_CHARACTERS);
    return visible.isWhole()
        ? new Text(visible.text())
        : new LongText(visible.text(), text.length());
  }
}
