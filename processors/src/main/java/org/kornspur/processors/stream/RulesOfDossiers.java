package org.kornspur.processors.stream;

import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.Map;
import org.apache.kafka.streams.state.KeyValueStore;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.standards.RulesFingerprint;

/**
 * By which rules each dossier of a task was judged last, and by which all of them were. As long as
 * all are of the rules in force, a new dossier needs no note of its own. It lies with what the
 * subjects last sent, so it changes in the transaction in which a dossier is judged. An earlier
 * release wrote none of it: its dossiers count as judged by other rules.
 */
final class RulesOfDossiers {
  static final String RULES = "rules";
  private static final String ALL = Keys.of(RULES, "all");

  private final KeyValueStore<String, byte[]> memory;

  /** What the store holds under {@link #ALL}, as every judging asks for it; null where nothing. */
  private byte[] all;

  RulesOfDossiers(KeyValueStore<String, byte[]> memory) {
    this.memory = memory;
    all = memory.get(ALL);
  }

  /** Whether the dossier of a subject was judged by these rules last. */
  boolean is(Subject subject, RulesFingerprint rules) {
    return is(memory.get(keyOf(subject)), rules);
  }

  private boolean is(byte[] noted, RulesFingerprint rules) {
    return noted == null ? areAll(rules) : Arrays.equals(noted, bytes(rules));
  }

  /**
   * Notes that the dossier of a subject was judged by these rules.
   *
   * @param held what the store holds of the subject besides its letters, by key
   */
  void note(Subject subject, RulesFingerprint rules, Map<String, byte[]> held) {
    if (is(held.get(keyOf(subject)), rules)) {
      return;
    }
    memory.put(keyOf(subject), bytes(rules));
    // another instance with other rules may have had this task meanwhile, or have it next
    if (!areAll(rules)) {
      memory.delete(ALL);
      all = null;
    }
  }

  /** Whether all dossiers of the task were judged by these rules last. */
  boolean areAll(RulesFingerprint rules) {
    return Arrays.equals(all, bytes(rules));
  }

  /** Notes that all dossiers of the task were judged by these rules. */
  void noteAll(RulesFingerprint rules) {
    all = bytes(rules);
    memory.put(ALL, all);
  }

  private static String keyOf(Subject subject) {
    return Keys.prefix(subject, RULES);
  }

  private static byte[] bytes(RulesFingerprint rules) {
    return rules.hex().getBytes(StandardCharsets.UTF_8);
  }
}
