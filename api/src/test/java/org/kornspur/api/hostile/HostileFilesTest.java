package org.kornspur.api.hostile;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.HashSet;
import java.util.Set;
import org.apache.avro.specific.SpecificRecord;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.kornspur.api.packaged.DemoFacts;
import org.kornspur.contract.QuarantineEntry;
import org.kornspur.ingest.file.FolderLoader;
import org.kornspur.ingest.file.LoadProgress;
import org.kornspur.ingest.file.LoadReport;
import org.kornspur.ingest.intake.FactSink;
import org.kornspur.ingest.intake.QuarantineEntries;

/** A hundred thousand harmful lines in a folder: each is a fact or a refusal, none is lost. */
@Tag("slow")
class HostileFilesTest {
  private static final int INPUTS = Integer.getInteger("hostile.lines", 30_000);
  private static final long SEED = Long.getLong("hostile.seed", 20_261_125L);

  @TempDir Path folder;

  private final Set<String> refused = new HashSet<>();
  private long accepted;

  private final FactSink counting =
      new FactSink() {
        @Override
        public void accept(SpecificRecord fact) {
          accepted++;
        }

        @Override
        public void refuse(QuarantineEntry entry) {
          refused.add(entry.getEntryId());
        }
      };

  @Test
  void everyLineIsAFactOrARefusal() throws IOException {
    HostileInputs inputs = new HostileInputs(SEED, DemoFacts.lines());
    Set<String> written = new HashSet<>();
    try (OutputStream lines = Files.newOutputStream(folder.resolve("hostile.ndjson"))) {
      for (int number = 0; number < INPUTS; number++) {
        byte[] line = onOneLine(inputs.fact(number));
        lines.write(line);
        lines.write('\n');
        written.add(QuarantineEntries.entryId(null, line));
      }
    }

    LoadReport report = FolderLoader.load(folder, Clock.systemUTC(), counting, LoadProgress.SILENT);

    assertThat(accepted).as("sound ones are among them").isGreaterThan(INPUTS / 10);
    assertThat(refused).as("and harmful ones").hasSizeGreaterThan(INPUTS / 2);
    // By the set itself: AssertJ would walk all lines for each refusal.
    assertThat(written.containsAll(refused))
        .as("each refusal keeps its line, byte for byte")
        .isTrue();
    assertThat(accepted + refused.size()).as("seed " + SEED).isEqualTo(written.size());
    assertThat(report.accepted()).isEqualTo(accepted);
  }

  /** A blank line holds nothing, and a carriage return at the end belongs to no line. */
  private static byte[] onOneLine(byte[] input) {
    byte[] line = new byte[input.length + 1];
    line[0] = ' ';
    for (int at = 0; at < input.length; at++) {
      line[at + 1] = input[at] == '\n' || input[at] == '\r' ? (byte) ' ' : input[at];
    }
    if (new String(line, java.nio.charset.StandardCharsets.ISO_8859_1).isBlank()) {
      line[0] = 'x';
    }
    return line;
  }
}
