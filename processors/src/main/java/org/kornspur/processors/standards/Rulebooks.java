package org.kornspur.processors.standards;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.util.Collection;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import org.kornspur.ingest.contract.Fingerprint;

/** The rulebooks that productions may name. */
public final class Rulebooks {
  /**
   * Metres around a crop in which foreign pollen is looked for; no book may ask for more. Twice
   * what the texts ask for, so that what lies just beyond a limit is seen too.
   */
  public static final double WIDEST_DISTANCE_M = 2_000;

  /**
   * Years back in which rye on a crop's own ground is looked for, so none is asked to be without it
   * for longer: one more than the texts ask.
   */
  public static final int MOST_YEARS_BACK = 3;

  private static final List<String> BUNDLED =
      List.of("practice", "eu", "de", "oecd", "us", "us-tx", "house");

  private final Map<String, WrittenRulebook> books;
  private final Optional<WrittenRulebook> practice;
  private final String digest;

  private Rulebooks(
      Map<String, WrittenRulebook> books, Optional<WrittenRulebook> practice, String digest) {
    this.books = Collections.unmodifiableMap(books);
    this.practice = practice;
    this.digest = digest;
  }

  /** A rulebook file: its name, for messages, and its YAML text. */
  public record RulebookFile(String name, String yaml) {}

  /** The rulebooks of this build; loaded and checked once. */
  public static Rulebooks bundled() {
    return Bundled.BOOKS;
  }

  /**
   * Loads rulebooks. A book that tightens another, or the common practice, comes after it.
   *
   * @throws RulebookRefused if a file cannot be read, or a book is looser than the one that it
   *     tightens
   */
  public static Rulebooks load(List<RulebookFile> files) {
    Map<String, WrittenRulebook> books = new LinkedHashMap<>();
    Optional<WrittenRulebook> practice = Optional.empty();
    for (RulebookFile file : files) {
      RulebookReader reader = new RulebookReader(file);
      WrittenRulebook book = reader.read(books, practice);
      TighteningCheck.check(file.name(), book);
      UnusedLinesCheck.check(file.name(), book);
      if (reader.isPractice()) {
        practice = Optional.of(book);
      } else if (books.put(book.id(), book) != null) {
        throw new RulebookRefused(
            "%s: field id: a rulebook '%s' is already loaded; give this one an id of its own"
                .formatted(file.name(), book.id()));
      }
    }
    return new Rulebooks(books, practice, digestOf(files));
  }

  private static String digestOf(List<RulebookFile> files) {
    return Fingerprint.of(
        files.stream()
            .map(file -> file.yaml().getBytes(StandardCharsets.UTF_8))
            .toArray(byte[][]::new));
  }

  /**
   * The rulebooks of this build, and further ones after them.
   *
   * @throws RulebookRefused as {@link #load} does
   */
  public static Rulebooks bundledAnd(List<RulebookFile> further) {
    return further.isEmpty()
        ? bundled()
        : load(Stream.concat(bundledFiles().stream(), further.stream()).toList());
  }

  /** SHA-256 over the texts of all files in the order of loading, hexadecimal. */
  public String digest() {
    return digest;
  }

  public Optional<Rulebook> find(String id) {
    return Optional.ofNullable(books.get(id));
  }

  /** Every rulebook that a production may name, in the order of loading. */
  public Collection<Rulebook> all() {
    return Collections.unmodifiableCollection(books.values());
  }

  /** Limits for which there is no text: common practice, no source. */
  public Optional<Rulebook> practice() {
    return practice.map(Rulebook.class::cast);
  }

  /** The files that {@link #bundled()} loads. */
  static List<RulebookFile> bundledFiles() {
    return BUNDLED.stream().map(Rulebooks::resource).toList();
  }

  private static RulebookFile resource(String name) {
    String path = "rulebooks/" + name + ".yaml";
    try (InputStream in = Rulebooks.class.getClassLoader().getResourceAsStream(path)) {
      if (in == null) {
        throw new RulebookRefused(path + ": not on the class path");
      }
      return new RulebookFile(path, new String(in.readAllBytes(), StandardCharsets.UTF_8));
    } catch (IOException e) {
      throw new UncheckedIOException(path, e);
    }
  }

  private static final class Bundled {
    static final Rulebooks BOOKS = load(bundledFiles());
  }

  /** Why no book may ask for so much of a unit; empty where it may. */
  static Optional<String> beyondWhatIsLookedFor(BigDecimal value, String unit) {
    if (unit.equals("m") && value.doubleValue() > WIDEST_DISTANCE_M) {
      return Optional.of(
          "%s m is more than the %.0f m in which foreign pollen is looked for"
              .formatted(value, WIDEST_DISTANCE_M));
    }
    return unit.equals("years") && value.doubleValue() > MOST_YEARS_BACK
        ? Optional.of(
            "%s years are more than the %d in which earlier rye is looked for"
                .formatted(value, MOST_YEARS_BACK))
        : Optional.empty();
  }
}
