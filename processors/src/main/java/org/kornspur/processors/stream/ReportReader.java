package org.kornspur.processors.stream;

import java.util.ArrayList;
import java.util.List;
import org.apache.kafka.common.serialization.StringSerializer;
import org.apache.kafka.streams.state.KeyValueIterator;
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
    List<byte[]> found = new ArrayList<>();
    try (KeyValueIterator<String, byte[]> held =
        reports.prefixScan(Keys.prefix(receiver), new StringSerializer())) {
      while (held.hasNext()) {
        found.add(held.next().value);
      }
    }
    return found;
  }

  /** The reports to a subject. */
  public List<Report> reportsTo(Subject receiver) {
    return keptFor(receiver).stream().map(ReportReader::read).toList();
  }

  /** A report as it is kept. */
  public static Report read(byte[] kept) {
    return InternalJson.read(kept, Report.class);
  }
}
