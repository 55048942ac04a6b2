package org.kornspur.processors.stream;

import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.apache.avro.specific.SpecificRecord;
import org.apache.kafka.streams.processor.api.Processor;
import org.apache.kafka.streams.processor.api.ProcessorContext;
import org.apache.kafka.streams.processor.api.Record;
import org.apache.kafka.streams.state.KeyValueStore;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.contract.Fingerprint;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.contract.SubjectsNamed;
import org.kornspur.ingest.registry.UnknownSchema;
import org.kornspur.ingest.wire.NotWireFormat;
import org.kornspur.ingest.wire.UnknownRecordType;
import org.kornspur.ingest.wire.WireFormat;
import org.kornspur.processors.dossier.LaboratoryResults;
import org.kornspur.processors.pedigree.Edges;

/** Puts a fact, or that it was superseded, into the dossier, and has the dossier judged. */
final class FactFiling implements Processor<String, SubjectMessage, Subject, DossierChange> {

  private final WireFormat wire;
  private ProcessorContext<Subject, DossierChange> context;
  private KeyValueStore<String, byte[]> facts;
  private KeyValueStore<String, String> revocations;

  FactFiling(WireFormat wire) {
    this.wire = wire;
  }

  @Override
  public void init(ProcessorContext<Subject, DossierChange> context) {
    this.context = context;
    facts = context.getStateStore(StateStores.DOSSIER_FACTS);
    revocations = context.getStateStore(StateStores.DOSSIER_REVOCATIONS);
  }

  @Override
  public void process(Record<String, SubjectMessage> record) {
    Subject subject = Keys.subject(record.key());
    DossierChange filed = DossierChange.OfFact.OF_NONE;
    if (record.value() instanceof SubjectMessage.FactFor message) {
      filed = file(subject, message);
    } else if (record.value() instanceof SubjectMessage.RevocationOf revocation) {
      revocations.put(
          Keys.of(subject, revocation.factId(), revocation.byFactId()), revocation.reason());
    }
    context.forward(new Record<>(subject, filed, record.timestamp(), record.headers()));
  }

  private DossierChange file(Subject subject, SubjectMessage.FactFor message) {
    Optional<SpecificRecord> fact = factOf(subject, message);
    facts.put(Keys.of(subject, message.factId()), message.wire());
    return fact.map(filed -> filed(subject, filed)).orElse(DossierChange.OfFact.OF_NONE);
  }

  private static DossierChange filed(Subject subject, SpecificRecord fact) {
    return new DossierChange.OfFact(
        Edges.of(fact).stream()
            .filter(edge -> edge.child().equals(subject))
            .map(edge -> edge.parent().toString())
            .collect(Collectors.toSet()),
        SubjectsNamed.of(fact).stream()
            .filter(named -> named.kind() == Subject.Kind.HYBRID)
            .map(Subject::toString)
            .collect(Collectors.toSet()),
        LaboratoryResults.kindOf(fact)
            .flatMap(kind -> LaboratoryResults.laboratoryOf(fact))
            .map(Subject::toString)
            .map(Set::of)
            .orElse(Set.of()));
  }

  /**
   * What the intake never sent is not filed, or the dossier could never be read again.
   *
   * @return the fact; empty where its schema is lost
   */
  private Optional<SpecificRecord> factOf(Subject subject, SubjectMessage.FactFor message) {
    SpecificRecord fact;
    try {
      fact = wire.decode(message.wire());
    } catch (UnknownSchema lost) {
      requireNothingFiled(subject, message);
      // the registry may have lost it: what is filed and cannot be read leaves evidence owed
      return Optional.empty();
    }
    Optional<SpecificRecord> filed = filed(subject, message);
    // the same fact may come again with a better proof of who brought it
    if (filed.isPresent() && !Fingerprint.of(filed.get()).equals(Fingerprint.of(fact))) {
      throw otherContent(subject, message);
    }
    boolean sent =
        FactType.of(fact.getSchema()).isPresent()
            && FactType.idOf(fact).equals(message.factId())
            && SubjectsNamed.of(fact).contains(subject);
    if (!sent) {
      throw new IllegalArgumentException(
          "Not a fact with the id " + message.factId() + " that names " + subject);
    }
    return Optional.of(fact);
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
    return Optional.ofNullable(facts.get(Keys.of(subject, message.factId())))
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
