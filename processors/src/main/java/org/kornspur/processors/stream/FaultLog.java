package org.kornspur.processors.stream;

import java.nio.charset.StandardCharsets;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.apache.kafka.common.metrics.Sensor;
import org.apache.kafka.streams.processor.api.ProcessorContext;
import org.apache.kafka.streams.state.KeyValueStore;
import org.kornspur.ingest.contract.Fingerprint;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.finding.Fault;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Counts and logs what could not be judged: the same fault of the same gate and subject once,
 * however often the dossier is judged, and again when it went and came again. What was logged lies
 * with what the subject last sent, so a restart does not repeat it.
 */
final class FaultLog {
  static final String COUNTED = "unjudgeable-gates";

  private static final Logger LOG = LoggerFactory.getLogger(FaultLog.class);
  static final String LOGGED = "faults";

  private final Sensor counter;
  private final KeyValueStore<String, byte[]> memory;

  FaultLog(ProcessorContext<?, ?> context, KeyValueStore<String, byte[]> memory) {
    this.memory = memory;
    counter = DropCounter.of(context, COUNTED);
  }

  /**
   * Takes notice of all faults that a subject has now.
   *
   * @param held keys of what the store holds of the subject besides its letters
   */
  void note(Subject subject, List<Fault> faults, Set<String> held) {
    String prefix = Keys.prefix(subject, LOGGED);
    Map<String, Fault> now = new TreeMap<>();
    faults.forEach(fault -> now.put(prefix + fingerprint(fault), fault));
    Set<String> gone =
        held.stream()
            .filter(key -> key.startsWith(prefix))
            .collect(Collectors.toCollection(TreeSet::new));
    now.forEach(
        (key, fault) -> {
          if (!gone.remove(key)) {
            memory.put(key, new byte[0]);
            counter.record();
            LOG.error(
                "The gate {} of {} could not be judged; the stream goes on. {}. It most likely rests on"
                    + " the facts {}",
                fault.gate(),
                subject,
                fault.words(),
                fault.factIds(),
                fault.cause());
          }
        });
    gone.forEach(memory::delete);
  }

  private static String fingerprint(Fault fault) {
    String text = fault.gate() + "\n" + fault.aspect() + "\n" + fault.words();
    return HexFormat.of()
        .formatHex(Fingerprint.sha256().digest(text.getBytes(StandardCharsets.UTF_8)));
  }
}
