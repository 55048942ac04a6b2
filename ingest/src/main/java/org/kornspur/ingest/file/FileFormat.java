package org.kornspur.ingest.file;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.kornspur.ingest.sheet.UnreadableTable;

/** The formats that the loader reads, by the ending of the file name. */
enum FileFormat {
  JSON(".json") {
    @Override
    void read(Path file, List<TableWords> languages, FileInputs into) throws IOException {
      try (InputStream source = open(file)) {
        JsonFile.read(source, into::take);
      }
    }
  },
  NDJSON(".ndjson") {
    @Override
    void read(Path file, List<TableWords> languages, FileInputs into) throws IOException {
      try (InputStream source = open(file)) {
        NdjsonFile.read(source, into::take);
      }
    }
  },
  CSV(".csv") {
    @Override
    void read(Path file, List<TableWords> languages, FileInputs into)
        throws IOException, UnreadableTable {
      if (!languages.isEmpty() && TableFile.isOfPersons(file, nameOf(file), languages)) {
        super.read(file, languages, into);
        return;
      }
      try (InputStream source = open(file)) {
        new CsvFile(nameOf(file), into::take).read(source);
      }
    }
  },
  XLSX(".xlsx"),
  GEOJSON(".geojson");

  private final String ending;

  FileFormat(String ending) {
    this.ending = ending;
  }

  /**
   * Hands each input of a file on, in order.
   *
   * @param languages whose words a person's table may have
   * @throws UnreadableTable if it is refused as a whole
   */
  void read(Path file, List<TableWords> languages, FileInputs into)
      throws IOException, UnreadableTable {
    TableFile.read(file, nameOf(file), languages, into);
  }

  private static InputStream open(Path file) throws IOException {
    return Files.newInputStream(file, LinkOption.NOFOLLOW_LINKS);
  }

  private static String nameOf(Path file) {
    return file.getFileName().toString();
  }

  static Optional<FileFormat> of(String fileName) {
    String name = fileName.toLowerCase(Locale.ROOT);
    for (FileFormat format : values()) {
      if (name.endsWith(format.ending)) {
        return Optional.of(format);
      }
    }
    return Optional.empty();
  }
}
