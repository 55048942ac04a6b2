package org.kornspur.api.packaged;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.contract.QuarantineEntry;
import org.kornspur.ingest.file.FolderLoader;
import org.kornspur.ingest.file.LoadProgress;
import org.kornspur.ingest.intake.FactSink;
import org.kornspur.ingest.json.AvroJson;

/** The facts of {@code demo-events}, as the ordinary loader reads them. */
public final class DemoFacts {

  static final Path FOLDER = Path.of("..", "demo-events").toAbsolutePath().normalize();

  /** A standing follows from whatever facts are there, so that any part of them will do. */
  private static final int EVERY_SO_MANY = 3;

  private DemoFacts() {}

  /** A part of all seasons and kinds, for tests of what happens to a process and not to seed. */
  static List<String> part() throws IOException {
    List<String> lines = lines();
    return IntStream.range(0, lines.size())
        .filter(at -> at % EVERY_SO_MANY == 0)
        .mapToObj(lines::get)
        .toList();
  }

  /** The same as a folder of files that can be loaded, within this one. */
  static Path partInto(Path folder) throws IOException {
    return writtenInto(folder, part());
  }

  private static Path writtenInto(Path folder, List<String> lines) throws IOException {
    Path files = Files.createDirectories(folder.resolve("part-of-demo"));
    Files.write(files.resolve("facts.ndjson"), lines);
    return files.toAbsolutePath();
  }

  /** The first two seasons, in which every kind of fact is, and lots are fit. */
  static List<String> seasons() throws IOException {
    List<String> lines = lines(FOLDER.resolve("2022"));
    lines.addAll(lines(FOLDER.resolve("2023")));
    return lines;
  }

  /** The same as a folder of files that can be loaded, within this one. */
  static Path seasonsInto(Path folder) throws IOException {
    return writtenInto(folder, seasons());
  }

  /** One fact a line, as NDJSON, in the order of the files. */
  public static List<String> lines() throws IOException {
    return lines(FOLDER);
  }

  private static List<String> lines(Path folder) throws IOException {
    List<String> lines = new ArrayList<>();
    FactSink gathered =
        new FactSink() {
          @Override
          public void accept(SpecificRecord fact) {
            lines.add(AvroJson.write(fact).toString());
          }

          @Override
          public void refuse(QuarantineEntry entry) {}
        };
    FolderLoader.load(folder, Clock.systemUTC(), gathered, LoadProgress.SILENT);
    return lines;
  }
}
