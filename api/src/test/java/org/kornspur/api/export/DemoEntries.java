package org.kornspur.api.export;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.time.Clock;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.contract.FactHeader;
import org.kornspur.contract.QuarantineEntry;
import org.kornspur.contract.Withdrawal;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.contract.SubjectsNamed;
import org.kornspur.ingest.file.FolderLoader;
import org.kornspur.ingest.file.LoadProgress;
import org.kornspur.ingest.intake.FactSink;
import org.kornspur.processors.dossier.Entry;

/** Every fact of {@code demo-events}, each with what corrects or takes it back. */
public final class DemoEntries {

  private static final Path FOLDER = Path.of("..", "demo-events").toAbsolutePath().normalize();
  private static final Map<String, SpecificRecord> FACTS = load();
  private static final Map<String, Entry.Superseded> SUPERSEDED = superseded();

  private DemoEntries() {}

  public static List<Entry> all() {
    return FACTS.values().stream().map(DemoEntries::entry).toList();
  }

  public static List<Entry> of(Subject subject) {
    return all().stream()
        .filter(entry -> SubjectsNamed.of(entry.fact()).contains(subject))
        .sorted(Entry.BY_TIME_THEN_ID)
        .toList();
  }

  public static Optional<SpecificRecord> fact(String factId) {
    return Optional.ofNullable(FACTS.get(factId));
  }

  private static Entry entry(SpecificRecord fact) {
    return new Entry(
        fact, Optional.ofNullable(SUPERSEDED.get(FactType.headerOf(fact).getFactId())));
  }

  private static Map<String, SpecificRecord> load() {
    Map<String, SpecificRecord> facts = new LinkedHashMap<>();
    FactSink gathered =
        new FactSink() {
          @Override
          public void accept(SpecificRecord fact) {
            facts.putIfAbsent(FactType.headerOf(fact).getFactId(), fact);
          }

          @Override
          public void refuse(QuarantineEntry entry) {}
        };
    try {
      FolderLoader.load(FOLDER, Clock.systemUTC(), gathered, LoadProgress.SILENT);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return facts;
  }

  private static Map<String, Entry.Superseded> superseded() {
    Map<String, Entry.Superseded> superseded = new HashMap<>();
    for (SpecificRecord fact : FACTS.values()) {
      FactHeader header = FactType.headerOf(fact);
      if (fact instanceof Withdrawal withdrawal) {
        superseded.put(
            withdrawal.getWithdrawnFactId(),
            new Entry.Superseded(header.getFactId(), withdrawal.getReason()));
      } else if (header.getCorrection() != null) {
        superseded.put(
            header.getCorrection().getSupersedes(),
            new Entry.Superseded(header.getFactId(), header.getCorrection().getReason()));
      }
    }
    return superseded;
  }
}
