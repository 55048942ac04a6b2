package org.kornspur.processors.stream;

import java.util.List;
import java.util.Optional;
import java.util.TreeMap;
import org.apache.kafka.streams.processor.api.Processor;
import org.apache.kafka.streams.processor.api.ProcessorContext;
import org.apache.kafka.streams.processor.api.Record;
import org.apache.kafka.streams.state.KeyValueStore;

/**
 * Notes that a fact is superseded, before or after it came, and tells the subjects that hold it.
 */
final class RevocationRegistrar implements Processor<String, Revocation, String, Object> {
  private ProcessorContext<String, Object> context;
  private KeyValueStore<String, RegisterEntry> register;

  @Override
  public void init(ProcessorContext<String, Object> context) {
    this.context = context;
    register = context.getStateStore(Stores.FACT_REGISTER);
  }

  @Override
  public void process(Record<String, Revocation> record) {
    Revocation revocation = record.value();
    RegisterEntry known = register.get(record.key());
    TreeMap<String, String> revokedBy =
        known == null ? new TreeMap<>() : new TreeMap<>(known.revokedBy());
    revokedBy.put(revocation.byFactId(), revocation.reason());
    List<String> subjects = known == null ? List.of() : known.subjects();
    Optional<String> fingerprint = known == null ? Optional.empty() : known.fingerprint();
    register.put(record.key(), new RegisterEntry(fingerprint, subjects, revokedBy));
    for (String subject : subjects) {
      context.forward(
          new Record<>(
              subject,
              new SubjectMessage.RevocationOf(
                  record.key(), revocation.byFactId(), revocation.reason()),
              context.currentSystemTimeMs()),
          FactIntake.TO_SUBJECTS);
    }
  }
}
