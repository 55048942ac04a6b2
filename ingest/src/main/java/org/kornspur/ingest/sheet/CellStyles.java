package org.kornspur.ingest.sheet;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Pattern;
import javax.xml.stream.XMLStreamConstants;
import javax.xml.stream.XMLStreamReader;

/** Which styles of a workbook show a number as a date (ECMA-376-1, 18.8.30 and 18.8.31). */
final class CellStyles {
  private static final int MOST = 100_000;

  /** What does not count in a format: quoted, escaped and bracketed text, and the fill marks. */
  private static final Pattern NO_CODE = Pattern.compile("\"[^\"]*\"|\\\\.|\\[[^\\]]*]|_.|\\*.");

  private static final Pattern DATE_CODE = Pattern.compile("[dmyhsDMYHS]");

  private final List<Boolean> datesByStyle = new ArrayList<>();

  static CellStyles read(WorkbookParts parts) throws UnreadableTable {
    CellStyles styles = new CellStyles();
    Optional<XMLStreamReader> xml = parts.xml("xl/styles.xml");
    if (xml.isPresent()) {
      styles.read(parts, xml.get());
    }
    return styles;
  }

  private void read(WorkbookParts parts, XMLStreamReader xml) throws UnreadableTable {
    Map<Integer, String> formats = new HashMap<>();
    boolean inCellFormats = false;
    for (int event = parts.next(xml);
        event != XMLStreamConstants.END_DOCUMENT;
        event = parts.next(xml)) {
      if (event == XMLStreamConstants.START_ELEMENT) {
        switch (xml.getLocalName()) {
          case "numFmt" ->
              formats.put(number(xml, "numFmtId"), xml.getAttributeValue(null, "formatCode"));
          case "cellXfs" -> inCellFormats = true;
          case "xf" -> {
            if (inCellFormats) {
              int format = number(xml, "numFmtId");
              datesByStyle.add(isDate(format, formats.get(format)));
            }
          }
          default -> {
            // colours and fonts say nothing of values
          }
        }
      } else if (event == XMLStreamConstants.END_ELEMENT && xml.getLocalName().equals("cellXfs")) {
        inCellFormats = false;
      }
      if (formats.size() > MOST || datesByStyle.size() > MOST) {
        throw parts.damaged();
      }
    }
  }

  /** Whether a number of this style is shown as a date or time of day. */
  boolean isDate(String style) {
    int at = style == null || !style.matches("\\d{1,7}") ? 0 : Integer.parseInt(style);
    return at < datesByStyle.size() && datesByStyle.get(at);
  }

  static boolean isDate(int format, String code) {
    if (code == null) {
      return (format >= 14 && format <= 22)
          || (format >= 27 && format <= 36)
          || (format >= 45 && format <= 47)
          || (format >= 50 && format <= 58);
    }
    String codes = NO_CODE.matcher(code.split(";", 2)[0]).replaceAll("");
    return !codes.equalsIgnoreCase("general") && DATE_CODE.matcher(codes).find();
  }

  private static int number(XMLStreamReader xml, String attribute) {
    String value = xml.getAttributeValue(null, attribute);
    return value == null || !value.matches("\\d{1,9}") ? 0 : Integer.parseInt(value);
  }
}
