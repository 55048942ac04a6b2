package org.kornspur.processors.stream;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.DataInputStream;
import java.io.DataOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.Objects;
import java.util.Optional;
import org.apache.kafka.common.serialization.Serde;
import org.apache.kafka.common.serialization.Serdes;
import org.kornspur.processors.dossier.Report;

/**
 * That a sender's report to a receiver is new, changed, or no longer holds; or the reminder that a
 * task sent to itself.
 *
 * <p>As bytes it is the sender and, behind it, the report as it is kept: so a report is written
 * once, where it is made. For one thread.
 */
final class ReportChange implements DossierRecord {
  /** Neither a subject nor a cell is named so. */
  private static final String ITSELF = "reminder";

  /** What earlier releases wrote begins otherwise. */
  private static final int FIRST_BYTE = 2;

  private final String sender;
  private final Optional<Report> report;
  private Optional<byte[]> kept;

  /**
   * @param sender who tells
   * @param report the report; empty when the sender takes it back
   */
  ReportChange(String sender, Optional<Report> report) {
    this(sender, report, Optional.empty());
  }

  private ReportChange(String sender, Optional<Report> report, Optional<byte[]> kept) {
    this.sender = Keys.part(sender);
    this.report = Objects.requireNonNull(report, "report");
    this.kept = kept;
  }

  /** As earlier releases wrote it. */
  private record Earlier(String sender, Optional<Report> report) {}

  /** A report to its receiver, until its sender takes it back. */
  static Outbox.Letter<ReportChange> letter(Report report) {
    return new Outbox.Letter<>(
        new ReportChange(report.sender(), Optional.of(report)),
        Optional.of(new ReportChange(report.sender(), Optional.empty())));
  }

  static ReportChange reminder() {
    return new ReportChange(ITSELF, Optional.empty());
  }

  String sender() {
    return sender;
  }

  Optional<Report> report() {
    return report;
  }

  boolean isReminder() {
    return sender.equals(ITSELF);
  }

  /** The report as a store keeps it; empty where there is none. */
  Optional<byte[]> kept() {
    if (kept.isEmpty()) {
      kept = report.map(told -> InternalSerdes.write(told, Report.class));
    }
    return kept;
  }

  static Serde<ReportChange> serde() {
    return Serdes.serdeFrom(
        (topic, change) -> change == null ? null : change.write(),
        (topic, bytes) -> bytes == null ? null : read(bytes));
  }

  private byte[] write() {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    try (DataOutputStream out = new DataOutputStream(bytes)) {
      out.writeByte(FIRST_BYTE);
      out.writeUTF(sender);
      out.write(kept().orElse(new byte[0]));
    } catch (IOException unwritable) {
      throw new UncheckedIOException(unwritable);
    }
    return bytes.toByteArray();
  }

  private static ReportChange read(byte[] bytes) {
    if (bytes.length == 0 || bytes[0] != FIRST_BYTE) {
      Earlier earlier = InternalSerdes.read(bytes, Earlier.class);
      return new ReportChange(earlier.sender(), earlier.report());
    }
    try (DataInputStream in = new DataInputStream(new ByteArrayInputStream(bytes))) {
      in.skipBytes(1);
      String sender = in.readUTF();
      Optional<byte[]> kept = Optional.of(in.readAllBytes()).filter(report -> report.length > 0);
      return new ReportChange(sender, kept.map(ReportReader::read), kept);
    } catch (IOException unreadable) {
      throw new UncheckedIOException(unreadable);
    }
  }

  @Override
  public boolean equals(Object other) {
    return other instanceof ReportChange change
        && sender.equals(change.sender)
        && report.equals(change.report);
  }

  @Override
  public int hashCode() {
    return Objects.hash(sender, report);
  }

  @Override
  public String toString() {
    return sender + " tells " + report;
  }
}
