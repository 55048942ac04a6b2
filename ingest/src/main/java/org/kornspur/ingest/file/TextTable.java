package org.kornspur.ingest.file;

import java.io.BufferedInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.ByteBuffer;
import java.nio.CharBuffer;
import java.nio.charset.Charset;
import java.nio.charset.CharsetDecoder;
import java.nio.charset.CoderResult;
import java.nio.charset.CodingErrorAction;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.function.ToIntFunction;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVRecord;
import org.kornspur.ingest.problem.Given;
import org.kornspur.ingest.problem.WorkbookProblem;
import org.kornspur.ingest.sheet.SheetCell;
import org.kornspur.ingest.sheet.SheetRow;
import org.kornspur.ingest.sheet.SheetRows;
import org.kornspur.ingest.sheet.UnreadableTable;

/**
 * A table as text, as spreadsheet programs save it. Its encoding and what parts its cells are told
 * from what is in it: UTF-8 where every byte is that, else Windows-1252; of comma, semicolon and
 * tab the one that finds most of the columns in the first line.
 *
 * @param charset the encoding
 * @param delimiter what parts the cells
 * @param said whether the first line says so, as {@code sep=;}, and is no header
 */
record TextTable(Path file, String fileName, Charset charset, char delimiter, boolean said) {
  private static final Charset WINDOWS_1252 = Charset.forName("windows-1252");
  private static final Pattern SAYS_DELIMITER = Pattern.compile("(?i)sep=([,;\t])");
  private static final List<Character> DELIMITERS = List.of(';', ',', '\t');
  private static final int PIECE = 65_536;

  /**
   * Finds out how a text is to be read.
   *
   * @param knownIn how many cells of a first line name columns
   */
  static TextTable of(Path file, String fileName, ToIntFunction<List<String>> knownIn)
      throws IOException, UnreadableTable {
    Charset charset =
        isIn(StandardCharsets.UTF_8, file) ? StandardCharsets.UTF_8 : windows(file, fileName);
    String first = firstLine(file, fileName, charset);
    Matcher says = SAYS_DELIMITER.matcher(first.strip());
    if (says.matches()) {
      return new TextTable(file, fileName, charset, says.group(1).charAt(0), true);
    }
    char best = ',';
    int most = -1;
    for (char delimiter : DELIMITERS) {
      List<String> cells = cells(first, delimiter).orElse(List.of());
      int found = knownIn.applyAsInt(cells) * SheetRows.MOST_COLUMNS + cells.size();
      if (found > most) {
        best = delimiter;
        most = found;
      }
    }
    return new TextTable(file, fileName, charset, best, false);
  }

  private static Charset windows(Path file, String fileName) throws IOException, UnreadableTable {
    if (isIn(WINDOWS_1252, file)) {
      return WINDOWS_1252;
    }
    throw new UnreadableTable(new Given.SentFile(fileName), new WorkbookProblem.OtherEncoding());
  }

  /** Whether every byte is text in an encoding; a zero byte is of no text. */
  private static boolean isIn(Charset charset, Path file) throws IOException {
    CharsetDecoder decoder =
        charset
            .newDecoder()
            .onMalformedInput(CodingErrorAction.REPORT)
            .onUnmappableCharacter(CodingErrorAction.REPORT);
    ByteBuffer bytes = ByteBuffer.allocate(PIECE);
    CharBuffer characters = CharBuffer.allocate(PIECE);
    try (InputStream in = new BufferedInputStream(Files.newInputStream(file))) {
      boolean ended = false;
      while (!ended) {
        int read = in.read(bytes.array(), bytes.position(), bytes.remaining());
        ended = read < 0;
        bytes.position(bytes.position() + Math.max(0, read)).flip();
        CoderResult result = decoder.decode(bytes, characters, ended);
        bytes.compact();
        characters.flip();
        boolean holdsZero = characters.chars().anyMatch(character -> character == 0);
        characters.clear();
        if (result.isError() || holdsZero) {
          return false;
        }
      }
    }
    return true;
  }

  private static String firstLine(Path file, String fileName, Charset charset)
      throws IOException, UnreadableTable {
    try (InputStream in = Files.newInputStream(file)) {
      Optional<Line> line = new LineReader(in).next();
      if (line.isEmpty()) {
        throw new UnreadableTable(new Given.SentFile(fileName), new WorkbookProblem.NoHeader());
      }
      return new String(line.get().bytes(), charset);
    }
  }

  /** A line without quotation marks needs no parser, which costs more than all else of a row. */
  private static Optional<List<String>> cells(String line, char delimiter) {
    if (!line.isEmpty() && line.indexOf('"') < 0 && line.indexOf('\r') < 0) {
      return Optional.of(List.of(line.split(Pattern.quote(String.valueOf(delimiter)), -1)));
    }
    CSVFormat format = CSVFormat.RFC4180.builder().setDelimiter(delimiter).get();
    try (CSVParser parser = CSVParser.parse(line, format)) {
      List<CSVRecord> records = parser.getRecords();
      return records.size() == 1
          ? Optional.of(records.get(0).stream().toList())
          : records.isEmpty() ? Optional.of(List.of()) : Optional.empty();
    } catch (IOException | UncheckedIOException openQuotationMark) {
      return Optional.empty();
    }
  }

  /** The rows; a line whose quotation marks do not close is a row of one cell, as it stands. */
  SheetRows rows() throws IOException {
    InputStream in = Files.newInputStream(file);
    LineReader lines = new LineReader(in);
    return new SheetRows() {
      private int rows;

      @Override
      public Optional<SheetRow> next() throws IOException, UnreadableTable {
        for (Optional<Line> line = lines.next(); line.isPresent(); line = lines.next()) {
          if (line.get().isTooLong()) {
            throw refused(new WorkbookProblem.CellTooLong(LONGEST_CELL));
          }
          SheetRow row = row(line.get());
          if (!row.isEmpty() && !(said && row.number() == 1)) {
            rows++;
            if (rows > MOST_ROWS) {
              throw refused(new WorkbookProblem.TooManyRows(MOST_ROWS));
            }
            return Optional.of(row);
          }
        }
        return Optional.empty();
      }

      @Override
      public void close() throws IOException {
        in.close();
      }
    };
  }

  private SheetRow row(Line line) throws UnreadableTable {
    String text = new String(line.bytes(), charset);
    List<String> cells = cells(text, delimiter).orElse(List.of(text));
    if (cells.size() > SheetRows.MOST_COLUMNS) {
      throw refused(new WorkbookProblem.TooManyColumns(SheetRows.MOST_COLUMNS));
    }
    return new SheetRow((int) line.number(), cells.stream().map(SheetCell::of).toList());
  }

  private UnreadableTable refused(WorkbookProblem why) {
    return new UnreadableTable(new Given.SentFile(fileName), why);
  }
}
