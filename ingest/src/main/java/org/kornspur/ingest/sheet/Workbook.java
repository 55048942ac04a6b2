package org.kornspur.ingest.sheet;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import javax.xml.stream.XMLStreamConstants;
import javax.xml.stream.XMLStreamReader;
import org.kornspur.ingest.problem.Given;
import org.kornspur.ingest.problem.WorkbookProblem;

/** A workbook of Office Open XML that is open for reading. */
public final class Workbook implements AutoCloseable {
  private static final String RELATIONS =
      "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
  private static final String STRICT_RELATIONS =
      "http://purl.oclc.org/ooxml/officeDocument/relationships";
  private static final byte[] ZIP = {'P', 'K', 3, 4};
  private static final byte[] COMPOUND_FILE = {(byte) 0xD0, (byte) 0xCF, 0x11, (byte) 0xE0};
  private static final int MOST_SHEETS = 100;

  private final WorkbookParts parts;
  private final CellStyles styles;
  private final SharedTexts texts;
  private final List<Sheet> sheets = new ArrayList<>();
  private boolean countsFrom1904;

  /** A sheet by its name, and the part that holds it. */
  private record Sheet(String name, String part) {}

  private Workbook(WorkbookParts parts) throws UnreadableTable {
    this.parts = parts;
    readSheets(relations());
    this.styles = CellStyles.read(parts);
    this.texts = SharedTexts.read(parts);
  }

  /** Whether a file begins as a workbook does, of this or of an older form. */
  public static boolean isWorkbook(Path file) throws IOException {
    byte[] beginning = beginning(file);
    return Arrays.equals(beginning, ZIP) || Arrays.equals(beginning, COMPOUND_FILE);
  }

  /**
   * Opens a workbook.
   *
   * @param fileName as the person knows it, for what is said of it
   */
  public static Workbook open(Path file, String fileName) throws IOException, UnreadableTable {
    return open(file, fileName, WorkbookParts.MOST_MEGABYTES);
  }

  static Workbook open(Path file, String fileName, int mostMegabytes)
      throws IOException, UnreadableTable {
    if (Arrays.equals(beginning(file), COMPOUND_FILE)) {
      throw new UnreadableTable(new Given.SentFile(fileName), new WorkbookProblem.OldOrLocked());
    }
    WorkbookParts parts = WorkbookParts.open(file, fileName, mostMegabytes);
    try {
      return new Workbook(parts);
    } catch (UnreadableTable | RuntimeException fault) {
      parts.close();
      throw fault;
    }
  }

  private static byte[] beginning(Path file) throws IOException {
    try (InputStream in = Files.newInputStream(file)) {
      return in.readNBytes(ZIP.length);
    }
  }

  /** Names of the sheets, in order. */
  public List<String> sheets() {
    return sheets.stream().map(Sheet::name).toList();
  }

  /** The rows of a sheet by its place, from 0. */
  public SheetRows rows(int sheet) throws UnreadableTable {
    return new WorkbookRows(
        parts, parts.requiredXml(sheets.get(sheet).part()), styles, texts, countsFrom1904);
  }

  private Map<String, String> relations() throws UnreadableTable {
    Map<String, String> targets = new HashMap<>();
    XMLStreamReader xml = parts.requiredXml("xl/_rels/workbook.xml.rels");
    for (int event = parts.next(xml);
        event != XMLStreamConstants.END_DOCUMENT;
        event = parts.next(xml)) {
      if (event == XMLStreamConstants.START_ELEMENT && xml.getLocalName().equals("Relationship")) {
        String target = xml.getAttributeValue(null, "Target");
        if (target != null) {
          targets.put(
              xml.getAttributeValue(null, "Id"),
              target.startsWith("/") ? target.substring(1) : "xl/" + target);
        }
      }
    }
    return targets;
  }

  private void readSheets(Map<String, String> targets) throws UnreadableTable {
    XMLStreamReader xml = parts.requiredXml("xl/workbook.xml");
    for (int event = parts.next(xml);
        event != XMLStreamConstants.END_DOCUMENT;
        event = parts.next(xml)) {
      if (event != XMLStreamConstants.START_ELEMENT) {
        continue;
      }
      if (xml.getLocalName().equals("workbookPr")) {
        String from1904 = xml.getAttributeValue(null, "date1904");
        countsFrom1904 = "1".equals(from1904) || "true".equals(from1904);
      } else if (xml.getLocalName().equals("sheet")) {
        String id = xml.getAttributeValue(RELATIONS, "id");
        String part = targets.get(id == null ? xml.getAttributeValue(STRICT_RELATIONS, "id") : id);
        String name = xml.getAttributeValue(null, "name");
        if (part == null || name == null || sheets.size() >= MOST_SHEETS) {
          throw parts.damaged();
        }
        // a sheet that is a chart has no rows
        if (part.contains("worksheets/")) {
          sheets.add(new Sheet(name, part));
        }
      }
    }
  }

  @Override
  public void close() throws IOException {
    parts.close();
  }
}
