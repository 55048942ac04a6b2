package org.kornspur.ingest.file;

import java.io.IOException;
import java.io.InputStream;
import java.util.Optional;
import java.util.function.Consumer;
import org.kornspur.ingest.json.FactParser;

/** JSON by lines: one fact a line, blank lines passed over. */
final class NdjsonFile {

  private NdjsonFile() {}

  static void read(InputStream source, Consumer<FileInput> into) throws IOException {
    LineReader lines = new LineReader(source);
    for (Optional<Line> line = lines.next(); line.isPresent(); line = lines.next()) {
      if (line.get().isTooLong()) {
        into.accept(FileInput.tooLong(line.get()));
      } else if (!isBlank(line.get().bytes())) {
        into.accept(
            new FileInput(
                line.get().number(), line.get().bytes(), FactParser.accept(line.get().bytes())));
      }
    }
  }

  private static boolean isBlank(byte[] bytes) {
    for (byte character : bytes) {
      if (character != ' ' && character != '\t' && character != '\r') {
        return false;
      }
    }
    return true;
  }
}
