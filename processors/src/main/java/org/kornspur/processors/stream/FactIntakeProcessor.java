package org.kornspur.processors.stream;

import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.SortedMap;
import org.apache.avro.specific.SpecificRecord;
import org.apache.kafka.common.header.Headers;
import org.apache.kafka.common.metrics.Sensor;
import org.apache.kafka.streams.processor.api.Processor;
import org.apache.kafka.streams.processor.api.ProcessorContext;
import org.apache.kafka.streams.processor.api.Record;
import org.kornspur.contract.FactHeader;
import org.kornspur.contract.QuarantineEntry;
import org.kornspur.contract.QuarantineOrigin;
import org.kornspur.contract.Withdrawal;
import org.kornspur.ingest.attestation.SignedActs;
import org.kornspur.ingest.attestation.SignedSubmissions;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.contract.Fingerprint;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.contract.SubjectsNamed;
import org.kornspur.ingest.intake.FactChecks;
import org.kornspur.ingest.intake.Problem;
import org.kornspur.ingest.intake.QuarantineEntries;
import org.kornspur.ingest.intake.ReceiptCheck;
import org.kornspur.ingest.problem.Given;
import org.kornspur.ingest.problem.RecordProblem;
import org.kornspur.ingest.publish.RecordSize;
import org.kornspur.ingest.registry.UnknownSchema;
import org.kornspur.ingest.seal.TrustedKeys;
import org.kornspur.ingest.wire.NotWireFormat;
import org.kornspur.ingest.wire.UnknownRecordType;
import org.kornspur.ingest.wire.WireFormat;
import org.kornspur.processors.ground.PlaceableFacts;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Reads each fact, refuses what is no fact, drops repeats, and sends the fact to every subject that
 * it names. Of what it refuses or drops it keeps a count and says why.
 */
final class FactIntakeProcessor implements Processor<byte[], byte[], String, IntakeRecord> {
  private static final Logger LOG = LoggerFactory.getLogger(FactIntakeProcessor.class);

  private final WireFormat wire;
  private final TrustedKeys keys;
  private ProcessorContext<String, IntakeRecord> context;
  private FactStore register;
  private Sensor repeats;
  private Sensor refusals;
  private SkippedRecords skipped;

  FactIntakeProcessor(WireFormat wire, TrustedKeys keys) {
    this.wire = wire;
    this.keys = keys;
  }

  @Override
  public void init(ProcessorContext<String, IntakeRecord> context) {
    this.context = context;
    register = new FactStore(context);
    repeats = DropCounter.of(context, "repeated-facts");
    refusals = DropCounter.of(context, "refused-facts");
    skipped = PoisonRecords.counter(context.appConfigs());
  }

  @Override
  public void process(Record<byte[], byte[]> record) {
    if (sizeOf(record) > RecordSize.MOST_FACT_BYTES) {
      refuse(record, List.of(tooLarge(record)));
      return;
    }
    try {
      read(record);
    } catch (RuntimeException | StackOverflowError fault) {
      if (PoisonRecords.isNoFaultOfTheRecord(fault)) {
        throw fault;
      }
      skipped.add(context, FactIntake.REGISTER_FACT, fault);
      refuse(record, List.of(fault(record, fault)));
    }
  }

  private void read(Record<byte[], byte[]> record) {
    SpecificRecord fact;
    try {
      fact = wire.decode(valueOf(record));
    } catch (NotWireFormat | UnknownSchema | UnknownRecordType unreadable) {
      refuse(record, List.of(unreadable(record, unreadable)));
      return;
    }
    List<Problem> problems = problemsOf(record, fact);
    if (problems.isEmpty()) {
      register(record, fact);
    } else {
      refuse(record, problems);
    }
  }

  private static byte[] valueOf(Record<byte[], byte[]> record) {
    return record.value() == null ? new byte[0] : record.value();
  }

  private static long sizeOf(Record<byte[], byte[]> record) {
    return valueOf(record).length + (record.key() == null ? 0L : record.key().length);
  }

  private static Problem tooLarge(Record<byte[], byte[]> record) {
    return Problem.of(
        "",
        new Given.Bytes(sizeOf(record)),
        new RecordProblem.TooLarge(RecordSize.MOST_FACT_BYTES));
  }

  /** Nobody thought of what is wrong with it, so the words are those of the program. */
  private static Problem fault(Record<byte[], byte[]> record, Throwable fault) {
    return Problem.of(
        "",
        new Given.Bytes(sizeOf(record)),
        new RecordProblem.NotProcessed(Problem.described(fault.toString())));
  }

  private static Problem unreadable(Record<byte[], byte[]> record, RuntimeException reason) {
    return Problem.of(
        "",
        record.value() == null ? new Given.NoValue() : new Given.Bytes(record.value().length),
        RecordProblem.unreadable(reason));
  }

  private List<Problem> problemsOf(Record<byte[], byte[]> record, SpecificRecord fact) {
    if (FactType.of(fact.getSchema()).isEmpty()) {
      return List.of(
          Problem.of(
              "",
              new Given.RecordType(fact.getSchema().getFullName()),
              new RecordProblem.NoFactType()));
    }
    String factId = FactType.idOf(fact);
    String keyText = record.key() == null ? "" : new String(record.key(), StandardCharsets.UTF_8);
    if (!keyText.equals(factId)) {
      return List.of(Problem.of("key", keyText, new RecordProblem.OtherKey(factId)));
    }
    List<Problem> problems = FactChecks.check(fact);
    if (problems.isEmpty()) {
      problems = SignedActs.problemsOf(fact, keys);
    }
    if (problems.isEmpty()) {
      problems = SignedSubmissions.problemsOf(fact, keys);
    }
    if (problems.isEmpty()) {
      problems = ReceiptCheck.check(fact, Instant.ofEpochMilli(record.timestamp()));
    }
    return problems.isEmpty() ? PlaceableFacts.problemsOf(fact) : problems;
  }

  private void register(Record<byte[], byte[]> record, SpecificRecord fact) {
    FactHeader header = FactType.headerOf(fact);
    String factId = header.getFactId();
    String fingerprint = Fingerprint.of(fact);
    RegisterEntry known = register.find(factId);
    if (known.fingerprint().isPresent()) {
      if (!known.fingerprint().get().equals(fingerprint)) {
        refuse(record, List.of(conflict(factId)));
        return;
      }
      if (!known.isProvenBetterBy(fact)) {
        repeats.record();
        return;
      }
    }
    List<String> subjects = SubjectsNamed.of(fact).stream().map(Subject::toString).toList();
    Optional<Revocation> superseded = supersededBy(fact);
    SortedMap<String, String> revokedBy = register.revokedBy(factId, known);
    register.put(factId, known.registered(fact, fingerprint, subjects));
    long now = context.currentSystemTimeMs();
    Headers along = StandingDelays.along(record.timestamp());
    for (String subject : subjects) {
      context.forward(
          new Record<String, IntakeRecord>(
              subject, new SubjectMessage.FactFor(factId, record.value()), now, along),
          FactIntake.TO_SUBJECTS);
      revokedBy.forEach(
          (by, reason) -> send(subject, new SubjectMessage.RevocationOf(factId, by, reason), now));
    }
    superseded.ifPresent(
        revocation ->
            context.forward(
                new Record<>(revocation.supersededFactId(), revocation, now),
                FactIntake.TO_REVOCATIONS));
  }

  private void send(String subject, SubjectMessage message, long now) {
    context.forward(new Record<>(subject, message, now), FactIntake.TO_SUBJECTS);
  }

  private static Problem conflict(String factId) {
    return Problem.of("header.factId", factId, new RecordProblem.OtherContent());
  }

  /** What a correction or withdrawal takes the place of. */
  static Optional<Revocation> supersededBy(SpecificRecord fact) {
    FactHeader header = FactType.headerOf(fact);
    if (fact instanceof Withdrawal withdrawal) {
      return Optional.of(
          new Revocation(
              withdrawal.getWithdrawnFactId(),
              header.getFactId(),
              RevocationNote.of(fact, withdrawal.getReason()).write()));
    }
    return Optional.ofNullable(header.getCorrection())
        .map(
            correction ->
                new Revocation(
                    correction.getSupersedes(),
                    header.getFactId(),
                    RevocationNote.of(fact, correction.getReason()).write()));
  }

  private void refuse(Record<byte[], byte[]> record, List<Problem> problems) {
    refusals.record();
    String place =
        context
            .recordMetadata()
            .map(at -> at.topic() + " partition " + at.partition() + " offset " + at.offset())
            .orElse("unknown place");
    QuarantineEntry entry =
        QuarantineEntries.held(
            QuarantineOrigin.TOPIC,
            place,
            Instant.ofEpochMilli(record.timestamp()),
            problems,
            record.key(),
            valueOf(record));
    LOG.debug("Refused the record at {}: {}", place, problems);
    context.forward(
        new Record<>(
            entry.getEntryId(),
            new IntakeRecord.Refused(wire.encode(Topics.QUARANTINE.topicName(), entry)),
            context.currentSystemTimeMs()),
        FactIntake.TO_QUARANTINE);
  }
}
