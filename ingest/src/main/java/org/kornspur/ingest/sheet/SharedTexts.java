package org.kornspur.ingest.sheet;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import javax.xml.stream.XMLStreamConstants;
import javax.xml.stream.XMLStreamReader;
import org.kornspur.ingest.problem.WorkbookProblem;

/** The table of texts that the cells of a workbook share (ECMA-376-1, 18.4). */
final class SharedTexts {
  /** Characters of all of them: each fact of a hundred thousand may have some hundreds. */
  private static final long MOST_CHARACTERS = 64_000_000;

  private static final int MOST_MEGABYTES = 64;
  private static final int MOST_TEXTS = 4_000_000;

  private final List<String> texts = new ArrayList<>();

  static SharedTexts read(WorkbookParts parts) throws UnreadableTable {
    SharedTexts shared = new SharedTexts();
    Optional<XMLStreamReader> xml = parts.xml("xl/sharedStrings.xml");
    if (xml.isPresent()) {
      shared.read(parts, xml.get());
    }
    return shared;
  }

  private void read(WorkbookParts parts, XMLStreamReader xml) throws UnreadableTable {
    long characters = 0;
    for (int event = parts.next(xml);
        event != XMLStreamConstants.END_DOCUMENT;
        event = parts.next(xml)) {
      if (event == XMLStreamConstants.START_ELEMENT && xml.getLocalName().equals("si")) {
        String text = text(parts, xml, "si");
        characters += text.length();
        if (characters > MOST_CHARACTERS || texts.size() >= MOST_TEXTS) {
          throw parts.refused(new WorkbookProblem.TooMuchUnpacked(MOST_MEGABYTES));
        }
        texts.add(text);
      }
    }
  }

  /**
   * The text of an element and of the runs in it; how it is pronounced is left out. The reader
   * stands at the end of the element then.
   */
  static String text(WorkbookParts parts, XMLStreamReader xml, String element)
      throws UnreadableTable {
    StringBuilder text = new StringBuilder();
    boolean inText = false;
    int pronounced = 0;
    for (int event = parts.next(xml); ; event = parts.next(xml)) {
      if (event == XMLStreamConstants.START_ELEMENT) {
        inText = xml.getLocalName().equals("t");
        pronounced += xml.getLocalName().equals("rPh") ? 1 : 0;
      } else if (event == XMLStreamConstants.END_ELEMENT) {
        inText = false;
        pronounced -= xml.getLocalName().equals("rPh") ? 1 : 0;
        if (xml.getLocalName().equals(element)) {
          return text.toString();
        }
      } else if (xml.hasText() && inText && pronounced == 0) {
        text.append(xml.getText());
        if (text.length() > SheetRows.LONGEST_CELL) {
          throw parts.refused(new WorkbookProblem.CellTooLong(SheetRows.LONGEST_CELL));
        }
      } else if (event == XMLStreamConstants.END_DOCUMENT) {
        throw parts.damaged();
      }
    }
  }

  /** The text with this number, from 0; empty where there is none. */
  Optional<String> at(String number) {
    int at = number.matches("\\d{1,9}") ? Integer.parseInt(number) : -1;
    return at >= 0 && at < texts.size() ? Optional.of(texts.get(at)) : Optional.empty();
  }
}
