package org.kornspur.processors.standards;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.function.Predicate;
import java.util.stream.Stream;
import org.kornspur.contract.Category;
import org.kornspur.contract.CropRole;

/**
 * A rulebook as read from its file. A limit that it does not give itself comes from the book that
 * it tightens, and failing that from common practice.
 */
record WrittenRulebook(
    String id,
    String title,
    String edition,
    List<RulebookLine> lines,
    Optional<Rulebook> tightens,
    Optional<Rulebook> practice)
    implements Rulebook {

  @Override
  public Optional<Limit> forCrop(
      Quantity quantity, Category category, CropRole role, LocalDate on) {
    return own(line -> line.holdsForCrop(quantity, category, role, on))
        .or(() -> tightens.flatMap(book -> book.forCrop(quantity, category, role, on)))
        .or(() -> practice.flatMap(book -> book.forCrop(quantity, category, role, on)));
  }

  @Override
  public Optional<Limit> forLot(Quantity quantity, Category category, Rye seed, LocalDate on) {
    return own(line -> line.holdsForLot(quantity, category, seed, on))
        .or(() -> tightens.flatMap(book -> book.forLot(quantity, category, seed, on)))
        .or(() -> practice.flatMap(book -> book.forLot(quantity, category, seed, on)));
  }

  private Optional<Limit> own(Predicate<RulebookLine> wanted) {
    return lines.stream().filter(wanted).map(RulebookLine::limit).findFirst();
  }

  /** The books that this one falls back on, nearest first. */
  Stream<Rulebook> inheritedFrom() {
    return Stream.concat(tightens.stream(), practice.stream());
  }
}
