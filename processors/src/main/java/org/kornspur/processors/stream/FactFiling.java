package org.kornspur.processors.stream;

import java.util.Optional;
import java.util.function.Supplier;
import org.apache.avro.specific.SpecificRecord;
import org.apache.kafka.streams.processor.api.Processor;
import org.apache.kafka.streams.processor.api.ProcessorContext;
import org.apache.kafka.streams.processor.api.Record;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.contract.Fingerprint;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.contract.SubjectsNamed;
import org.kornspur.ingest.registry.UnknownSchema;
import org.kornspur.ingest.wire.NotWireFormat;
import org.kornspur.ingest.wire.UnknownRecordType;
import org.kornspur.ingest.wire.WireFormat;
import org.kornspur.processors.judging.Judge;

/**
 * Puts a fact, or that it was superseded, into the dossier, and has the dossier judged again. In
 * the background it has all dossiers of its task judged again when the rules change.
 */
final class FactFiling implements Processor<String, SubjectMessage, String, DossierRecord> {
  private final WireFormat wire;
  private final Supplier<Judge> judges;
  private DossierUpdater desk;
  private RejudgingWalk walk;

  FactFiling(WireFormat wire, Supplier<Judge> judges) {
    this.wire = wire;
    this.judges = judges;
  }

  @Override
  public void init(ProcessorContext<String, DossierRecord> context) {
    desk = new DossierUpdater(context, wire, judges);
    walk = new RejudgingWalk(context, desk);
  }

  @Override
  public void close() {
    walk.close();
  }

  @Override
  public void process(Record<String, SubjectMessage> record) {
    Subject subject = Keys.subject(record.key());
    if (record.value() instanceof SubjectMessage.FactFor message) {
      requireFactOf(subject, message);
    }
    desk.fileMessage(subject, record.value());
    desk.refresh(subject);
  }

  /** What the intake never sent is not filed, or the dossier could never be read again. */
  private void requireFactOf(Subject subject, SubjectMessage.FactFor message) {
    SpecificRecord fact;
    try {
      fact = wire.decode(message.wire());
    } catch (UnknownSchema lost) {
      requireNothingFiled(subject, message);
      // the registry may have lost it: what is filed and cannot be read leaves evidence owed
      return;
    }
    Optional<SpecificRecord> filed = filed(subject, message);
    // the same fact may come again with a better proof of who brought it
    if (filed.isPresent() && !Fingerprint.of(filed.get()).equals(Fingerprint.of(fact))) {
      throw otherContent(subject, message);
    }
    boolean sent =
        FactType.of(fact.getSchema()).isPresent()
            && FactType.headerOf(fact).getFactId().equals(message.factId())
            && SubjectsNamed.of(fact).contains(subject);
    if (!sent) {
      throw new IllegalArgumentException(
          "Not a fact with the id " + message.factId() + " that names " + subject);
    }
  }

  private void requireNothingFiled(Subject subject, SubjectMessage.FactFor message) {
    if (filed(subject, message).isPresent()) {
      throw otherContent(subject, message);
    }
  }

  private static IllegalArgumentException otherContent(
      Subject subject, SubjectMessage.FactFor message) {
    return new IllegalArgumentException(
        "Another content of the fact " + message.factId() + ", which is filed for " + subject);
  }

  /** The fact that is filed under the id; empty where there is none, or none that can be read. */
  private Optional<SpecificRecord> filed(Subject subject, SubjectMessage.FactFor message) {
    return desk.filed(subject, message.factId())
        .flatMap(
            wireForm -> {
              try {
                return Optional.of(wire.decode(wireForm));
              } catch (NotWireFormat | UnknownSchema | UnknownRecordType unreadable) {
                return Optional.empty();
              }
            });
  }
}
