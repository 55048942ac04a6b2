package org.kornspur.ingest.registry;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import org.apache.avro.AvroRuntimeException;
import org.apache.avro.Schema;
import org.apache.avro.SchemaCompatibility;

/**
 * What a schema registry knows, as a state machine with no input or output of its own. It decides
 * on a registration without taking it in; whoever keeps the log writes the entry down first and
 * then {@linkplain #apply applies} it. Applying the log from its beginning gives the same ledger,
 * also from a compacted log, as every entry has a key of its own.
 *
 * <p>Compatibility is full and transitive: a new schema must read the data of every version before
 * it in its subject and be read by them, by Avro's own {@link SchemaCompatibility}. Ids count from
 * one and belong to the schema's text, whatever the subject.
 *
 * <p>Not safe for several threads.
 */
public final class SchemaLedger {

  /**
   * One line of the log.
   *
   * @param version counts from one in each subject
   * @param id shared by every subject that holds the same schema
   * @param schema in Avro's JSON form
   */
  public record Entry(String subject, int version, int id, String schema) {

    public Entry {
      if (subject == null || schema == null || version < 1 || id < 1) {
        throw new IllegalArgumentException(
            "No line of a registry's log: subject %s, version %s, id %s"
                .formatted(subject, version, id));
      }
    }

    /** Key of the line in a compacted log, unlike that of any other line. */
    public String key() {
      return subject + "/" + version;
    }
  }

  /** What becomes of a registration. */
  public sealed interface Decision {}

  /** The subject holds the schema already. */
  public record Held(Entry entry) implements Decision {}

  /** The schema is new to the subject and fits: to be written down and applied. */
  public record Addition(Entry entry) implements Decision {}

  /**
   * The schema does not fit.
   *
   * @param messages each difference, with the version and the place in the schema
   */
  public record Incompatible(List<String> messages) implements Decision {}

  /** Ids are given one by one; one far ahead would leave none for those to come. */
  private static final int MOST_IDS_AHEAD = 100_000;

  private record Version(Entry entry, Schema schema) {}

  private final Map<String, List<Version>> subjects = new HashMap<>();
  private final Map<Integer, Schema> byId = new HashMap<>();
  private final Map<String, Integer> ids = new HashMap<>();
  private int lastId;

  /** Decides on a registration and changes nothing. */
  public Decision decide(String subject, Schema schema) {
    Optional<Entry> held = find(subject, schema);
    if (held.isPresent()) {
      return new Held(held.get());
    }
    List<Version> versions = subjects.getOrDefault(subject, List.of());
    List<String> differences =
        versions.stream().flatMap(version -> differences(version, schema)).toList();
    if (!differences.isEmpty()) {
      return new Incompatible(differences);
    }
    String text = schema.toString();
    int version = versions.stream().mapToInt(known -> known.entry().version()).max().orElse(0) + 1;
    return new Addition(new Entry(subject, version, ids.getOrDefault(text, lastId + 1), text));
  }

  /**
   * Takes in one line of the log; the same line again changes nothing.
   *
   * @throws IllegalArgumentException if the line contradicts one before it or holds no schema
   */
  public void apply(Entry entry) {
    Schema schema = parsed(entry);
    List<Version> versions = subjects.getOrDefault(entry.subject(), List.of());
    Optional<Version> known =
        versions.stream().filter(one -> one.entry().version() == entry.version()).findFirst();
    if (known.isPresent()) {
      if (!known.get().entry().equals(entry)) {
        throw contradiction(entry, known.get().entry().toString());
      }
      return;
    }
    if (entry.id() > lastId + MOST_IDS_AHEAD) {
      throw contradiction(entry, "id " + lastId);
    }
    versions.stream()
        .flatMap(version -> differences(version, schema))
        .findFirst()
        .ifPresent(
            difference -> {
              throw contradiction(entry, "a version of which it is said: " + difference);
            });
    Schema sameId = byId.get(entry.id());
    if (sameId != null && !sameId.toString().equals(schema.toString())) {
      throw contradiction(entry, "id " + entry.id() + " holds " + sameId);
    }
    subjects
        .computeIfAbsent(entry.subject(), name -> new ArrayList<>())
        .add(new Version(entry, schema));
    byId.put(entry.id(), schema);
    ids.putIfAbsent(schema.toString(), entry.id());
    lastId = Math.max(lastId, entry.id());
  }

  /** Where a subject holds this very schema. */
  public Optional<Entry> find(String subject, Schema schema) {
    String text = schema.toString();
    return subjects.getOrDefault(subject, List.of()).stream()
        .filter(version -> version.schema().toString().equals(text))
        .map(Version::entry)
        .findFirst();
  }

  public Optional<Schema> byId(int id) {
    return Optional.ofNullable(byId.get(id));
  }

  /** Every subject, by name. */
  public List<String> subjects() {
    return subjects.keySet().stream().sorted().toList();
  }

  /** What a subject holds, the first version first; empty where there is no such subject. */
  public List<Entry> versions(String subject) {
    return subjects.getOrDefault(subject, List.of()).stream().map(Version::entry).toList();
  }

  /** Where a schema is held, by subject. */
  public List<Entry> places(int id) {
    return subjects().stream()
        .flatMap(subject -> versions(subject).stream())
        .filter(entry -> entry.id() == id)
        .toList();
  }

  /** Whether any schema was ever registered in this subject. */
  public boolean holds(String subject) {
    return subjects.containsKey(subject);
  }

  private static Stream<String> differences(Version earlier, Schema later) {
    return Stream.concat(
        differences(
            later, earlier.schema(), "cannot read data of version " + earlier.entry().version()),
        differences(
            earlier.schema(), later, "cannot be read by version " + earlier.entry().version()));
  }

  private static Stream<String> differences(Schema reader, Schema writer, String relation) {
    return SchemaCompatibility.checkReaderWriterCompatibility(reader, writer)
        .getResult()
        .getIncompatibilities()
        .stream()
        .map(
            difference ->
                "%s at %s: %s (%s)"
                    .formatted(
                        relation,
                        difference.getLocation(),
                        difference.getType(),
                        difference.getMessage()));
  }

  private static Schema parsed(Entry entry) {
    try {
      return new Schema.Parser().parse(entry.schema());
    } catch (AvroRuntimeException e) {
      throw new IllegalArgumentException(
          "The log of schemas holds no Avro schema at " + entry.key() + ": " + entry.schema(), e);
    }
  }

  private static IllegalArgumentException contradiction(Entry entry, String known) {
    return new IllegalArgumentException(
        "The log of schemas contradicts itself: " + entry + " comes after " + known);
  }
}
