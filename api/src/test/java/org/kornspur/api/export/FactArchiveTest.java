package org.kornspur.api.export;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.ArrayList;
import java.util.List;
import java.util.zip.ZipEntry;
import java.util.zip.ZipInputStream;
import org.apache.avro.specific.SpecificRecord;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.kornspur.contract.QuarantineEntry;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.file.FolderLoader;
import org.kornspur.ingest.file.LoadProgress;
import org.kornspur.ingest.intake.FactSink;

/** The loader itself reads what was unpacked. */
class FactArchiveTest {
  private static final Path SEASON = Path.of("..", "demo-events", "2023");

  @TempDir Path folder;

  @Test
  void theLoaderTakesWhatWasUnpackedAndItIsTheSame() throws Exception {
    List<SpecificRecord> facts = load(SEASON);
    ByteArrayOutputStream archive = new ByteArrayOutputStream();

    FactArchive.write(facts, archive);

    try (ZipInputStream zip = new ZipInputStream(new ByteArrayInputStream(archive.toByteArray()))) {
      for (ZipEntry entry = zip.getNextEntry(); entry != null; entry = zip.getNextEntry()) {
        Files.write(folder.resolve(entry.getName()), zip.readAllBytes());
      }
    }
    assertThat(facts).hasSizeGreaterThan(50);
    assertThat(load(folder)).containsExactlyInAnyOrderElementsOf(facts);
  }

  private static List<SpecificRecord> load(Path from) throws Exception {
    List<SpecificRecord> facts = new ArrayList<>();
    FolderLoader.load(
        from,
        Clock.systemUTC(),
        new FactSink() {
          @Override
          public void accept(SpecificRecord fact) {
            facts.add(fact);
          }

          @Override
          public void refuse(QuarantineEntry entry) {
            throw new AssertionError(entry.getReason() + " " + entry.getPlace());
          }
        },
        LoadProgress.SILENT);
    assertThat(facts).noneMatch(fact -> FactType.of(fact).isAct());
    return facts;
  }
}
