package org.kornspur.ingest.registry;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.apache.avro.Schema;
import org.kornspur.contract.CauseNote;
import org.kornspur.contract.NotificationChoice;
import org.kornspur.contract.NotificationMessage;
import org.kornspur.contract.PersonName;
import org.kornspur.contract.PlanVersion;
import org.kornspur.contract.QuarantineEntry;
import org.kornspur.ingest.contract.FactType;

/**
 * Every schema that was ever released: one folder a release, one file a record. A release adds a
 * folder by running {@link #main} with its number; no folder is ever changed after its release.
 */
final class ReleasedSchemas {

  private static final Path FOLDER = Path.of("src/test/resources/released-schemas");

  private ReleasedSchemas() {}

  /** The schemas of the present contract that stand on topics. */
  static Stream<Schema> present() {
    return Stream.concat(
        Stream.of(FactType.values()).map(FactType::schema),
        Stream.of(
            QuarantineEntry.getClassSchema(),
            PersonName.getClassSchema(),
            PlanVersion.getClassSchema(),
            CauseNote.getClassSchema(),
            NotificationChoice.getClassSchema(),
            NotificationMessage.getClassSchema()));
  }

  /** Numbers of the releases. */
  static List<String> releases() throws IOException {
    try (Stream<Path> folders = Files.list(FOLDER)) {
      return folders.map(folder -> folder.getFileName().toString()).sorted().toList();
    }
  }

  static List<Schema> of(String release) throws IOException {
    try (Stream<Path> files = Files.list(FOLDER.resolve(release))) {
      return files.sorted().map(ReleasedSchemas::read).toList();
    }
  }

  private static Schema read(Path file) {
    try {
      return new Schema.Parser().parse(file.toFile());
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** Writes the present contract down as a release, as in {@code 0.2}. */
  public static void main(String[] release) throws IOException {
    Path folder = Files.createDirectories(FOLDER.resolve(release[0]));
    for (Schema schema : present().toList()) {
      Files.writeString(folder.resolve(schema.getName() + ".avsc"), schema.toString(true) + "\n");
    }
  }
}
