package org.kornspur.ingest.contract;

import java.util.Collection;
import java.util.Locale;
import java.util.Optional;
import java.util.SortedSet;
import java.util.TreeSet;
import org.apache.avro.Schema;
import org.apache.avro.generic.IndexedRecord;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.contract.EnterpriseDeclared;

/**
 * Which dossiers a fact belongs in: every lot, crop, pollen source and hybrid that one of its
 * fields names, as the {@code names} annotations of the contract say. Enterprises are named by very
 * many facts; only their own declaration goes into their dossier.
 */
public final class SubjectsNamed {

  private SubjectsNamed() {}

  /** The subjects that a fact names, in order of their text form. */
  public static SortedSet<Subject> of(SpecificRecord fact) {
    SortedSet<Subject> subjects = new TreeSet<>();
    collect(fact.getSchema(), fact, subjects);
    if (!(fact instanceof EnterpriseDeclared)) {
      subjects.removeIf(subject -> subject.kind() == Subject.Kind.ENTERPRISE);
    }
    return subjects;
  }

  /**
   * What a fact is of: not the hybrid that its lot or crop belongs to, unless it is that itself.
   */
  public static SortedSet<Subject> own(SpecificRecord fact) {
    SortedSet<Subject> all = of(fact);
    SortedSet<Subject> own = new TreeSet<>(all);
    own.removeIf(subject -> subject.kind() == Subject.Kind.HYBRID);
    return own.isEmpty() ? all : own;
  }

  /** Whether a value of this type names a subject. */
  public static boolean isNamedBy(Schema schema) {
    return switch (schema.getType()) {
      case RECORD -> schema.getFields().stream().anyMatch(field -> isNamedBy(field.schema()));
      case ARRAY -> isNamedBy(schema.getElementType());
      case UNION -> schema.getTypes().stream().anyMatch(SubjectsNamed::isNamedBy);
      case STRING -> kindNamed(schema).isPresent();
      default -> false;
    };
  }

  private static void collect(Schema schema, Object value, SortedSet<Subject> into) {
    if (value == null) {
      return;
    }
    switch (schema.getType()) {
      case RECORD -> {
        IndexedRecord branch = (IndexedRecord) value;
        schema.getFields().forEach(field -> collect(field.schema(), branch.get(field.pos()), into));
      }
      case ARRAY ->
          ((Collection<?>) value)
              .forEach(element -> collect(schema.getElementType(), element, into));
      case UNION ->
          schema.getTypes().stream()
              .filter(type -> type.getType() != Schema.Type.NULL)
              .forEach(type -> collect(type, value, into));
      case STRING ->
          kindNamed(schema).map(kind -> new Subject(kind, value.toString())).ifPresent(into::add);
      default -> {
        // numbers, enums and flags name nothing
      }
    }
  }

  private static Optional<Subject.Kind> kindNamed(Schema schema) {
    String word = schema.getProp("names");
    if (word == null) {
      return Optional.empty();
    }
    for (Subject.Kind kind : Subject.Kind.values()) {
      if (kind.word().equals(word.toLowerCase(Locale.ROOT))) {
        return Optional.of(kind);
      }
    }
    return Optional.empty();
  }
}
