package org.kornspur.ingest.contract;

import java.util.Locale;

/**
 * Something that facts are about and that has a dossier of its own.
 *
 * <p>The text form, {@code lot:R24-0001}, is the key of every topic and store that is kept by
 * subject.
 */
public record Subject(Kind kind, String id) implements Comparable<Subject> {

  /** Kinds of subject, by the word that the contract's {@code names} annotation uses. */
  public enum Kind {
    LOT,
    CROP,
    SOURCE,
    HYBRID,
    ENTERPRISE;

    /** The word in text forms and annotations. */
    public String word() {
      return name().toLowerCase(Locale.ROOT);
    }

    /** Whether it is judged and so has a standing: a lot or a crop. */
    public boolean isJudged() {
      return this == LOT || this == CROP;
    }
  }

  public static Subject lot(String id) {
    return new Subject(Kind.LOT, id);
  }

  public static Subject crop(String id) {
    return new Subject(Kind.CROP, id);
  }

  public static Subject source(String id) {
    return new Subject(Kind.SOURCE, id);
  }

  public static Subject hybrid(String id) {
    return new Subject(Kind.HYBRID, id);
  }

  public static Subject enterprise(String id) {
    return new Subject(Kind.ENTERPRISE, id);
  }

  /**
   * Reads the text form.
   *
   * @throws IllegalArgumentException if the text is not a kind, a colon and an id
   */
  public static Subject parse(String text) {
    int colon = text.indexOf(':');
    if (colon < 1 || colon == text.length() - 1) {
      throw new IllegalArgumentException("Not a subject: '" + text + "'. Expected kind:id");
    }
    return new Subject(
        Kind.valueOf(text.substring(0, colon).toUpperCase(Locale.ROOT)), text.substring(colon + 1));
  }

  @Override
  public int compareTo(Subject other) {
    return toString().compareTo(other.toString());
  }

  @Override
  public String toString() {
    return kind.word() + ":" + id;
  }
}
