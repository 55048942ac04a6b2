package org.kornspur.api.text;

import java.util.Map;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import org.apache.avro.Schema;
import org.kornspur.ingest.text.TextBundle;

/**
 * Short names of the contract's fields in one language, with their unit where they have one, as in
 * "Screenings, kg": labels of forms and headers of tables.
 */
public final class FieldLabels {
  private static final Map<Language, FieldLabels> READ = new ConcurrentHashMap<>();

  private final TextBundle texts;

  private FieldLabels(TextBundle texts) {
    this.texts = texts;
  }

  /** The names in this language. */
  public static FieldLabels in(Language language) {
    return READ.computeIfAbsent(
        language,
        one -> new FieldLabels(TextBundle.read(one.locale(), FieldLabels.class, "text/fields")));
  }

  /**
   * The name of a field of this record: its own, or else that of all fields called so.
   *
   * @throws IllegalArgumentException if the field has no name
   */
  public String of(Schema record, String field) {
    String own = record.getName() + "." + field;
    return texts.written(texts.has(own) ? own : field, Map.of());
  }

  /** Whether a field of this record has a name; what only the server writes has none. */
  public boolean has(Schema record, String field) {
    return texts.has(record.getName() + "." + field) || texts.has(field);
  }

  /** Fields, or records and fields, that have a name. */
  Set<String> keys() {
    return texts.keys();
  }
}
