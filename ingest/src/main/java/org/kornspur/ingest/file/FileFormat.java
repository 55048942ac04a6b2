package org.kornspur.ingest.file;

import java.io.IOException;
import java.io.InputStream;
import java.util.Locale;
import java.util.Optional;
import java.util.function.Consumer;

/** The formats that the loader reads, by the ending of the file name. */
enum FileFormat {
  JSON(".json") {
    @Override
    void read(String fileName, InputStream source, Consumer<FileInput> into) throws IOException {
      JsonFile.read(source, into);
    }
  },
  NDJSON(".ndjson") {
    @Override
    void read(String fileName, InputStream source, Consumer<FileInput> into) throws IOException {
      NdjsonFile.read(source, into);
    }
  },
  CSV(".csv") {
    @Override
    void read(String fileName, InputStream source, Consumer<FileInput> into) throws IOException {
      new CsvFile(fileName, into).read(source);
    }
  };

  private final String ending;

  FileFormat(String ending) {
    this.ending = ending;
  }

  /** Hands each input of a file on, in order. */
  abstract void read(String fileName, InputStream source, Consumer<FileInput> into)
      throws IOException;

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
