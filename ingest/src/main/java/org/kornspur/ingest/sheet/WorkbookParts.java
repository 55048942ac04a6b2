package org.kornspur.ingest.sheet;

import java.io.FilterInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Path;
import java.util.Locale;
import java.util.Optional;
import java.util.zip.ZipEntry;
import java.util.zip.ZipFile;
import javax.xml.stream.XMLInputFactory;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamReader;
import org.kornspur.ingest.problem.Given;
import org.kornspur.ingest.problem.WorkbookProblem;

/** The files packed into a workbook. What is unpacked of all of them together is bounded. */
final class WorkbookParts implements AutoCloseable {
  /** A hundred thousand rows of twenty cells unpack to about a third of it. */
  static final int MOST_MEGABYTES = 256;

  private static final long BYTES_OF_A_MEGABYTE = 1_000_000;
  private static final int MOST_PARTS = 2_000;

  /** Not what stands on the class path: only this one's limits are known. */
  private static final XMLInputFactory XML = XMLInputFactory.newDefaultFactory();

  static {
    XML.setProperty(XMLInputFactory.SUPPORT_DTD, false);
    XML.setProperty(XMLInputFactory.IS_SUPPORTING_EXTERNAL_ENTITIES, false);
    XML.setProperty(XMLInputFactory.IS_REPLACING_ENTITY_REFERENCES, false);
  }

  private final ZipFile zip;
  private final String fileName;
  private final int mostMegabytes;
  private long unpacked;

  private WorkbookParts(ZipFile zip, String fileName, int mostMegabytes) {
    this.zip = zip;
    this.fileName = fileName;
    this.mostMegabytes = mostMegabytes;
  }

  static WorkbookParts open(Path file, String fileName, int mostMegabytes)
      throws IOException, UnreadableTable {
    ZipFile zip;
    try {
      zip = new ZipFile(file.toFile());
    } catch (IOException | IllegalArgumentException noZip) {
      throw new UnreadableTable(new Given.SentFile(fileName), new WorkbookProblem.Damaged());
    }
    WorkbookParts parts = new WorkbookParts(zip, fileName, mostMegabytes);
    try {
      parts.refuseWhatIsMore();
      return parts;
    } catch (UnreadableTable refused) {
      zip.close();
      throw refused;
    }
  }

  private void refuseWhatIsMore() throws UnreadableTable {
    if (zip.size() > MOST_PARTS || zip.getEntry("xl/workbook.xml") == null) {
      throw refused(new WorkbookProblem.NoTable());
    }
    if (holds("xl/externallinks/") || holds("xl/connections.xml")) {
      throw refused(new WorkbookProblem.ExternalLinks());
    }
    if (holds("xl/vbaproject.bin") || holds("xl/macrosheets/")) {
      throw refused(new WorkbookProblem.Macros());
    }
  }

  private boolean holds(String beginning) {
    return zip.stream()
        .anyMatch(part -> part.getName().toLowerCase(Locale.ROOT).startsWith(beginning));
  }

  /** A part as XML; empty where there is none. */
  Optional<XMLStreamReader> xml(String name) throws UnreadableTable {
    ZipEntry part = zip.getEntry(name);
    if (part == null) {
      return Optional.empty();
    }
    try {
      return Optional.of(XML.createXMLStreamReader(new Counted(zip.getInputStream(part))));
    } catch (XMLStreamException | IOException e) {
      throw damaged();
    }
  }

  XMLStreamReader requiredXml(String name) throws UnreadableTable {
    Optional<XMLStreamReader> part = xml(name);
    if (part.isEmpty()) {
      throw damaged();
    }
    return part.get();
  }

  /**
   * Moves a reader to the next event.
   *
   * @throws UnreadableTable where the XML is none, or more than may be unpacked
   */
  int next(XMLStreamReader xml) throws UnreadableTable {
    try {
      return xml.next();
    } catch (XMLStreamException | RuntimeException fault) {
      throw isTooMuch() ? refused(new WorkbookProblem.TooMuchUnpacked(mostMegabytes)) : damaged();
    }
  }

  private boolean isTooMuch() {
    return unpacked > mostMegabytes * BYTES_OF_A_MEGABYTE;
  }

  UnreadableTable damaged() {
    return refused(new WorkbookProblem.Damaged());
  }

  UnreadableTable refused(WorkbookProblem why) {
    return new UnreadableTable(new Given.SentFile(fileName), why);
  }

  @Override
  public void close() throws IOException {
    zip.close();
  }

  /** Ends where more is unpacked than may be, whatever the packed file says of its size. */
  private final class Counted extends FilterInputStream {
    Counted(InputStream in) {
      super(in);
    }

    @Override
    public int read() throws IOException {
      int read = super.read();
      count(read < 0 ? 0 : 1);
      return read;
    }

    @Override
    public int read(byte[] into, int from, int length) throws IOException {
      int read = super.read(into, from, length);
      count(Math.max(0, read));
      return read;
    }

    private void count(int bytes) throws IOException {
      unpacked += bytes;
      if (isTooMuch()) {
        throw new IOException("More than " + mostMegabytes + " MB unpacked");
      }
    }
  }
}
