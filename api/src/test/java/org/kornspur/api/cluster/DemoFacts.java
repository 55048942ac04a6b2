package org.kornspur.api.cluster;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Clock;
import java.util.ArrayList;
import java.util.List;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.contract.QuarantineEntry;
import org.kornspur.ingest.file.FolderLoad;
import org.kornspur.ingest.file.LoadProgress;
import org.kornspur.ingest.intake.FactSink;
import org.kornspur.ingest.json.AvroJson;

/** The facts of {@code demo-events}, as the ordinary loader reads them. */
public final class DemoFacts {

  static final Path FOLDER = Path.of("..", "demo-events").toAbsolutePath().normalize();

  private DemoFacts() {}

  /** One fact a line, as NDJSON, in the order of the files. */
  public static List<String> lines() throws IOException {
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
    FolderLoad.load(FOLDER, Clock.systemUTC(), gathered, LoadProgress.SILENT);
    return lines;
  }
}
