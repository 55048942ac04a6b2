package org.kornspur.api.text;

import java.time.LocalDate;
import java.util.Optional;
import org.kornspur.ingest.contract.Subject;

/** Who reads: in which language, on which day, and what may be named to them. */
public interface Audience {

  /** Writes dates, numbers and units, in the reader's language. */
  LocalFormat form();

  /** The day on which it is read, at the site. */
  LocalDate today();

  /** Whether this subject may be named. */
  boolean names(Subject subject);

  /** Whether the id of this fact may be told. */
  boolean namesFact(String factId);

  /** Whether persons may be named. */
  default boolean namesPersons() {
    return true;
  }

  /** The recorded name of an enterprise. */
  Optional<String> nameOf(Subject enterprise);

  /** The page of a subject; empty where it has none or it is not the reader's. */
  Optional<String> pageOf(Subject subject);

  /** One who sees everything and follows no links: for papers and for tests. */
  static Audience ofEverything(LocalFormat form, LocalDate today) {
    record Everything(LocalFormat form, LocalDate today) implements Audience {
      @Override
      public boolean names(Subject subject) {
        return true;
      }

      @Override
      public boolean namesFact(String factId) {
        return true;
      }

      @Override
      public Optional<String> nameOf(Subject enterprise) {
        return Optional.empty();
      }

      @Override
      public Optional<String> pageOf(Subject subject) {
        return Optional.empty();
      }
    }
    return new Everything(form, today);
  }
}
