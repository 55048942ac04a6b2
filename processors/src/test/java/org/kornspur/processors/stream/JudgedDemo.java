package org.kornspur.processors.stream;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.time.Clock;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.contract.QuarantineEntry;
import org.kornspur.ingest.file.FolderLoader;
import org.kornspur.ingest.file.LoadProgress;
import org.kornspur.ingest.intake.FactSink;
import org.kornspur.standing.LotStanding;

/**
 * The invented enterprise, from its files through the loader to the real topology under the real
 * rules. Each part is made once for all tests of a process, when one first asks for it.
 */
final class JudgedDemo {
  static final Path FOLDER = Path.of("..", "demo-events");

  private JudgedDemo() {}

  /** Its facts in the order of the files. */
  static List<SpecificRecord> facts() {
    return new ArrayList<>(Read.FACTS);
  }

  /** The same as quality brings them through the interface. */
  static List<SpecificRecord> signedFacts() {
    return new ArrayList<>(Signed.FACTS);
  }

  /** How many standings were written when all facts waited before the first was judged. */
  static int judgings() {
    return Judged.JUDGINGS;
  }

  /** What processors told each other then. */
  static DrivenTopology.Written reports() {
    return Judged.REPORTS;
  }

  /** What the memory of what was sent wrote to its log then. */
  static DrivenTopology.Written remembered() {
    return Judged.REMEMBERED;
  }

  /** Its standings. */
  static Map<String, LotStanding> standings() {
    return Judged.STANDINGS;
  }

  /**
   * The topology that took them all in. Whoever sends more to it, or has it judge by other rules,
   * must leave every other crop and lot as it was.
   */
  static DrivenTopology topology() {
    return Judged.TOPOLOGY;
  }

  private static final class Read {
    static final List<SpecificRecord> FACTS = read();
  }

  private static final class Signed {
    static final List<SpecificRecord> FACTS =
        Read.FACTS.stream().map(fact -> DrivenTopology.by(DrivenTopology.QUALITY, fact)).toList();
  }

  private static final class Judged {
    static final DrivenTopology TOPOLOGY = DrivenTopology.withRealRules();
    static final Map<String, LotStanding> STANDINGS;
    static final int JUDGINGS;
    static final DrivenTopology.Written REPORTS;
    static final DrivenTopology.Written REMEMBERED;

    static {
      TOPOLOGY.acceptAtOnce(Signed.FACTS);
      REPORTS = TOPOLOGY.newlyWritten(Topics.REPORTS.topicName());
      REMEMBERED = TOPOLOGY.newlyLogged(StateStores.DOSSIER_OUTBOX);
      JUDGINGS = TOPOLOGY.newStandings().size();
      assertThat(TOPOLOGY.quarantine()).isEmpty();
      STANDINGS = Map.copyOf(TOPOLOGY.standings());
    }
  }

  private static List<SpecificRecord> read() {
    List<SpecificRecord> facts = new ArrayList<>();
    try {
      FolderLoader.load(
          FOLDER,
          Clock.systemUTC(),
          new FactSink() {
            @Override
            public void accept(SpecificRecord fact) {
              facts.add(fact);
            }

            @Override
            public void refuse(QuarantineEntry entry) {
              // the broken files are looked at where files are read
            }
          },
          LoadProgress.SILENT);
    } catch (IOException unreadable) {
      throw new UncheckedIOException(unreadable);
    }
    assertThat(facts).hasSizeGreaterThan(2_000);
    return facts;
  }
}
