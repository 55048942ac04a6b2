package org.kornspur.processors.stream;

import java.util.ArrayList;
import java.util.List;
import java.util.SortedMap;
import java.util.TreeMap;
import org.apache.kafka.streams.state.ReadOnlyKeyValueStore;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.dossier.Report;

/** Reads what parents, the hybrid and the ground last told a subject. */
public final class ReportReader {
  private final ReadOnlyKeyValueStore<String, byte[]> reports;

  public ReportReader(ReadOnlyKeyValueStore<String, byte[]> reports) {
    this.reports = reports;
  }

  /** The reports to a subject as they are kept; {@link #read} understands each. */
  public List<byte[]> keptFor(Subject receiver) {
    return List.copyOf(keptByKey(receiver).values());
  }

  /**
   * What a subject was told.
   *
   * @param unreadable keys of what is kept there and cannot be read
   */
  record Told(List<Report> reports, List<String> unreadable) {}

  /** What can be read of the reports to a subject, and what cannot. */
  Told toldTo(Subject receiver) {
    List<Report> reports = new ArrayList<>();
    List<String> unreadable = new ArrayList<>();
    keptByKey(receiver)
        .forEach(
            (key, kept) -> {
              try {
                reports.add(read(kept));
              } catch (RuntimeException fault) {
                unreadable.add(key);
              }
            });
    return new Told(reports, unreadable);
  }

  private SortedMap<String, byte[]> keptByKey(Subject receiver) {
    SortedMap<String, byte[]> found = new TreeMap<>();
    Keys.scan(reports, Keys.prefix(receiver))
        .forEach(report -> found.put(report.key, report.value));
    return found;
  }

  public static Report read(byte[] kept) {
    return InternalSerdes.read(kept, Report.class);
  }
}
