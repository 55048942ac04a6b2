package org.kornspur.ingest.demo;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;

/**
 * A piece of trouble that the demo holds.
 *
 * @param folder folder of its files below {@code stories/}
 * @param title in a few words
 * @param facts what happens
 * @param lookAt what to look at
 * @param shouldShow what should be seen there
 */
record Story(String folder, String title, String facts, List<Look> lookAt, String shouldShow) {

  /**
   * Something to look at.
   *
   * @param subject in text form
   * @param standing the standing that it should have; empty for what is not judged
   */
  record Look(String subject, Optional<String> standing) {}

  /** What to look at, begun with nothing. */
  static Looks looks() {
    return new Looks();
  }

  /** Gathers what to look at. */
  static final class Looks {
    private final List<Look> looks = new ArrayList<>();

    Looks fit(String... subjects) {
      return add(Optional.of("FIT"), subjects);
    }

    Looks notFit(String... subjects) {
      return add(Optional.of("NOT_FIT"), subjects);
    }

    Looks owed(String... subjects) {
      return add(Optional.of("EVIDENCE_OWED"), subjects);
    }

    Looks unjudged(String... subjects) {
      return add(Optional.empty(), subjects);
    }

    List<Look> list() {
      return List.copyOf(looks);
    }

    private Looks add(Optional<String> standing, String... subjects) {
      Arrays.stream(subjects).map(subject -> new Look(subject, standing)).forEach(looks::add);
      return this;
    }
  }

  /** Subjects to look at, in text form. */
  Stream<String> subjects() {
    return lookAt.stream().map(Look::subject);
  }
}
