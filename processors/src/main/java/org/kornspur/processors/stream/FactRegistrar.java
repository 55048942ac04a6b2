package org.kornspur.processors.stream;

import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import org.apache.avro.specific.SpecificRecord;
import org.apache.kafka.common.metrics.Sensor;
import org.apache.kafka.streams.processor.api.Processor;
import org.apache.kafka.streams.processor.api.ProcessorContext;
import org.apache.kafka.streams.processor.api.Record;
import org.apache.kafka.streams.state.KeyValueStore;
import org.kornspur.contract.FactHeader;
import org.kornspur.contract.QuarantineEntry;
import org.kornspur.contract.QuarantineOrigin;
import org.kornspur.contract.QuarantineProblem;
import org.kornspur.contract.QuarantineState;
import org.kornspur.contract.Withdrawal;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.contract.Fingerprint;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.contract.SubjectsNamed;
import org.kornspur.ingest.intake.FactChecks;
import org.kornspur.ingest.registry.UnknownSchema;
import org.kornspur.ingest.wire.NotWireFormat;
import org.kornspur.ingest.wire.UnknownRecordType;
import org.kornspur.ingest.wire.WireFormat;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Reads each fact, refuses what is no fact, drops repeats, and sends the fact to every subject that
 * it names. Of what it refuses or drops it keeps a count and says why.
 */
final class FactRegistrar implements Processor<byte[], byte[], String, Object> {
  private static final Logger LOG = LoggerFactory.getLogger(FactRegistrar.class);

  private final WireFormat wire;
  private ProcessorContext<String, Object> context;
  private KeyValueStore<String, RegisterEntry> register;
  private Sensor repeats;
  private Sensor refusals;

  FactRegistrar(WireFormat wire) {
    this.wire = wire;
  }

  @Override
  public void init(ProcessorContext<String, Object> context) {
    this.context = context;
    register = context.getStateStore(Stores.FACT_REGISTER);
    repeats = DropCounter.of(context, "repeated-facts");
    refusals = DropCounter.of(context, "refused-facts");
  }

  @Override
  public void process(Record<byte[], byte[]> record) {
    SpecificRecord fact;
    try {
      fact = wire.decode(record.value() == null ? new byte[0] : record.value());
    } catch (NotWireFormat | UnknownSchema | UnknownRecordType unreadable) {
      refuse(record, "The value cannot be read as a fact", List.of(unreadable(record, unreadable)));
      return;
    }
    List<QuarantineProblem> problems = problemsOf(record.key(), fact);
    if (problems.isEmpty()) {
      register(record, fact);
    } else {
      refuse(record, "The fact breaks the contract in " + problems.size() + " place(s)", problems);
    }
  }

  private static QuarantineProblem unreadable(
      Record<byte[], byte[]> record, RuntimeException reason) {
    return new QuarantineProblem(
        "",
        record.value() == null ? "no value" : record.value().length + " bytes",
        "a fact of the contract in wire format",
        reason.getMessage());
  }

  private static List<QuarantineProblem> problemsOf(byte[] key, SpecificRecord fact) {
    if (FactType.of(fact.getSchema()).isEmpty()) {
      return List.of(
          new QuarantineProblem(
              "",
              fact.getSchema().getFullName(),
              "a fact type of the contract",
              "Send facts only; this record type is for another topic"));
    }
    String factId = FactType.headerOf(fact).getFactId();
    String keyText = key == null ? "" : new String(key, StandardCharsets.UTF_8);
    if (!keyText.equals(factId)) {
      return List.of(
          new QuarantineProblem(
              "key",
              keyText,
              "the fact id, " + factId,
              "Send each fact under its own fact id as the record key"));
    }
    return FactChecks.check(fact).stream()
        .map(p -> new QuarantineProblem(p.field(), p.value(), p.limit(), p.remedy()))
        .toList();
  }

  private void register(Record<byte[], byte[]> record, SpecificRecord fact) {
    FactHeader header = FactType.headerOf(fact);
    String factId = header.getFactId();
    String fingerprint = Fingerprint.of(fact);
    RegisterEntry known = register.get(factId);
    if (known != null && known.fingerprint().isPresent()) {
      if (known.fingerprint().get().equals(fingerprint)) {
        repeats.record();
      } else {
        refuse(record, "Conflict: another fact has this id", List.of(conflict(factId)));
      }
      return;
    }
    List<String> subjects = SubjectsNamed.of(fact).stream().map(Subject::toString).toList();
    SortedMap<String, String> revokedBy = known == null ? new TreeMap<>() : known.revokedBy();
    register.put(factId, new RegisterEntry(Optional.of(fingerprint), subjects, revokedBy));
    long now = context.currentSystemTimeMs();
    for (String subject : subjects) {
      send(subject, new SubjectMessage.FactFor(factId, record.value()), now);
      revokedBy.forEach(
          (by, reason) -> send(subject, new SubjectMessage.RevocationOf(factId, by, reason), now));
    }
    supersededBy(fact)
        .ifPresent(
            revocation ->
                context.forward(
                    new Record<>(revocation.supersededFactId(), revocation, now),
                    FactIntake.TO_REVOCATIONS));
  }

  private void send(String subject, SubjectMessage message, long now) {
    context.forward(new Record<>(subject, message, now), FactIntake.TO_SUBJECTS);
  }

  private static QuarantineProblem conflict(String factId) {
    return new QuarantineProblem(
        "header.factId",
        factId,
        "one content for each fact id",
        "If the first was wrong, send a new fact with an id of its own and"
            + " header.correction.supersedes set to this id");
  }

  private static Optional<Revocation> supersededBy(SpecificRecord fact) {
    FactHeader header = FactType.headerOf(fact);
    if (fact instanceof Withdrawal withdrawal) {
      return Optional.of(
          new Revocation(
              withdrawal.getWithdrawnFactId(), header.getFactId(), withdrawal.getReason()));
    }
    return Optional.ofNullable(header.getCorrection())
        .map(
            correction ->
                new Revocation(
                    correction.getSupersedes(), header.getFactId(), correction.getReason()));
  }

  private void refuse(
      Record<byte[], byte[]> record, String reason, List<QuarantineProblem> problems) {
    refusals.record();
    byte[] key = record.key() == null ? new byte[0] : record.key();
    byte[] value = record.value() == null ? new byte[0] : record.value();
    String place =
        context
            .recordMetadata()
            .map(at -> at.topic() + " partition " + at.partition() + " offset " + at.offset())
            .orElse("unknown place");
    LOG.warn("Refused a record at {}: {}", place, reason);
    String entryId = Fingerprint.of(key, value);
    QuarantineEntry entry =
        QuarantineEntry.newBuilder()
            .setEntryId(entryId)
            .setOrigin(QuarantineOrigin.TOPIC)
            .setPlace(place)
            .setReceivedAt(Instant.ofEpochMilli(record.timestamp()))
            .setReason(reason)
            .setProblems(problems)
            .setOriginalKey(record.key() == null ? null : java.nio.ByteBuffer.wrap(key))
            .setOriginalValue(java.nio.ByteBuffer.wrap(value))
            .setState(QuarantineState.HELD)
            .build();
    context.forward(
        new Record<>(
            entryId,
            wire.encode(Topics.QUARANTINE.topicName(), entry),
            context.currentSystemTimeMs()),
        FactIntake.TO_QUARANTINE);
  }
}
