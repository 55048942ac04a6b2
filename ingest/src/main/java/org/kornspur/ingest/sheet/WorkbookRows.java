package org.kornspur.ingest.sheet;

import java.math.BigDecimal;
import java.time.DateTimeException;
import java.time.LocalDateTime;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import javax.xml.stream.XMLStreamConstants;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamReader;
import org.kornspur.ingest.problem.WorkbookProblem;

/** The rows of a sheet, read as they are asked for (ECMA-376-1, 18.3.1.73 and 18.3.1.4). */
final class WorkbookRows implements SheetRows {
  private static final Pattern REFERENCE = Pattern.compile("([A-Z]{1,7})(\\d{1,7})");

  /** Day 0 of serial dates; those before March 1900, of which one never was, are of no use here. */
  private static final LocalDateTime DAY_0 = LocalDateTime.of(1899, 12, 30, 0, 0);

  private static final LocalDateTime DAY_0_FROM_1904 = LocalDateTime.of(1904, 1, 1, 0, 0);
  private static final double MILLISECONDS_A_DAY = 86_400_000;
  private static final double MOST_DAYS = 3_000_000;

  private final WorkbookParts parts;
  private final XMLStreamReader xml;
  private final CellStyles styles;
  private final SharedTexts texts;
  private final LocalDateTime dayZero;
  private int lastRow;
  private int rows;

  WorkbookRows(
      WorkbookParts parts,
      XMLStreamReader xml,
      CellStyles styles,
      SharedTexts texts,
      boolean countsFrom1904) {
    this.parts = parts;
    this.xml = xml;
    this.styles = styles;
    this.texts = texts;
    this.dayZero = countsFrom1904 ? DAY_0_FROM_1904 : DAY_0;
  }

  @Override
  public Optional<SheetRow> next() throws UnreadableTable {
    for (int event = parts.next(xml);
        event != XMLStreamConstants.END_DOCUMENT;
        event = parts.next(xml)) {
      if (event == XMLStreamConstants.START_ELEMENT && xml.getLocalName().equals("row")) {
        SheetRow row = row();
        if (!row.isEmpty()) {
          rows++;
          if (rows > MOST_ROWS) {
            throw parts.refused(new WorkbookProblem.TooManyRows(MOST_ROWS));
          }
          return Optional.of(row);
        }
      } else if (event == XMLStreamConstants.END_ELEMENT
          && xml.getLocalName().equals("sheetData")) {
        return Optional.empty();
      }
    }
    return Optional.empty();
  }

  private SheetRow row() throws UnreadableTable {
    String number = xml.getAttributeValue(null, "r");
    lastRow = number != null && number.matches("\\d{1,8}") ? Integer.parseInt(number) : lastRow + 1;
    List<SheetCell> cells = new ArrayList<>();
    for (int event = parts.next(xml); ; event = parts.next(xml)) {
      if (event == XMLStreamConstants.START_ELEMENT && xml.getLocalName().equals("c")) {
        int column = column(xml.getAttributeValue(null, "r"), cells.size());
        while (cells.size() <= column) {
          cells.add(new SheetCell.Empty());
        }
        cells.set(column, cell());
      } else if (event == XMLStreamConstants.END_ELEMENT && xml.getLocalName().equals("row")) {
        return new SheetRow(lastRow, cells);
      } else if (event == XMLStreamConstants.END_DOCUMENT) {
        throw parts.damaged();
      }
    }
  }

  private int column(String reference, int following) throws UnreadableTable {
    int column = following;
    if (reference != null) {
      Matcher letters = REFERENCE.matcher(reference);
      if (!letters.matches()) {
        throw parts.damaged();
      }
      long number = 0;
      for (char letter : letters.group(1).toCharArray()) {
        number = number * 26 + (letter - 'A' + 1);
      }
      column = (int) Math.min(number - 1, Integer.MAX_VALUE);
    }
    if (column >= MOST_COLUMNS) {
      throw parts.refused(new WorkbookProblem.TooManyColumns(MOST_COLUMNS));
    }
    return column;
  }

  private SheetCell cell() throws UnreadableTable {
    String type = xml.getAttributeValue(null, "t");
    String style = xml.getAttributeValue(null, "s");
    boolean isFormula = false;
    StringBuilder value = new StringBuilder();
    boolean inValue = false;
    for (int event = parts.next(xml); ; event = parts.next(xml)) {
      if (event == XMLStreamConstants.START_ELEMENT) {
        inValue = xml.getLocalName().equals("v");
        if (xml.getLocalName().equals("f")) {
          isFormula = true;
        } else if (xml.getLocalName().equals("is")) {
          value.append(SharedTexts.text(parts, xml, "is"));
        }
      } else if (event == XMLStreamConstants.END_ELEMENT) {
        inValue = false;
        if (xml.getLocalName().equals("c")) {
          return isFormula
              ? new SheetCell.Formula()
              : value(type == null ? "n" : type, style, value.toString());
        }
      } else if (inValue && xml.hasText()) {
        value.append(xml.getText());
        if (value.length() > LONGEST_CELL) {
          throw parts.refused(new WorkbookProblem.CellTooLong(LONGEST_CELL));
        }
      } else if (event == XMLStreamConstants.END_DOCUMENT) {
        throw parts.damaged();
      }
    }
  }

  private SheetCell value(String type, String style, String value) throws UnreadableTable {
    return switch (type) {
      case "s" -> SheetCell.of(texts.at(value.strip()).orElseThrow(parts::damaged));
      case "b" -> new SheetCell.Flag(value.strip().equals("1"));
      case "e" -> new SheetCell.Fault(value);
      case "n" -> value.isBlank() ? new SheetCell.Empty() : number(style, value.strip());
      case "d" -> moment(value.strip());
      default -> SheetCell.of(value);
    };
  }

  private SheetCell number(String style, String value) throws UnreadableTable {
    double number;
    try {
      number = Double.parseDouble(value);
    } catch (NumberFormatException noNumber) {
      throw parts.damaged();
    }
    if (!Double.isFinite(number)) {
      return new SheetCell.Fault(value);
    }
    if (styles.isDate(style) && number >= 0 && number < MOST_DAYS) {
      return new SheetCell.Moment(
          dayZero.plus(Math.round(number * MILLISECONDS_A_DAY), ChronoUnit.MILLIS));
    }
    // the shortest decimal number that is this one: what the person typed
    BigDecimal typed = BigDecimal.valueOf(number).stripTrailingZeros();
    return new SheetCell.Number(typed.scale() < 0 ? typed.setScale(0) : typed);
  }

  private SheetCell moment(String value) throws UnreadableTable {
    try {
      return new SheetCell.Moment(
          value.length() <= 10
              ? LocalDateTime.parse(value + "T00:00")
              : LocalDateTime.parse(value.replaceFirst("Z$", "")));
    } catch (DateTimeException noTime) {
      throw parts.damaged();
    }
  }

  @Override
  public void close() {
    try {
      xml.close();
    } catch (XMLStreamException e) {
      // nothing was written, so nothing can be lost
    }
  }
}
