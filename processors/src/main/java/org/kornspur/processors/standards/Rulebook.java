package org.kornspur.processors.standards;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import org.kornspur.contract.Category;
import org.kornspur.contract.CropRole;
import org.kornspur.processors.statistics.SamplingIntensity;

/** Limits of one text, or of a house that tightens one, as they stood on any day. */
public interface Rulebook {

  /** Id that productions name, as in {@code EU}. */
  String id();

  /** Title of the text. */
  String title();

  /** Edition of the file, shown with every verdict. */
  String edition();

  /**
   * The limit for a crop.
   *
   * @param quantity what is limited
   * @param category category that the crop is grown for
   * @param role what the crop is in the scheme
   * @param on day whose text governs
   * @return empty where the text gives no limit
   */
  Optional<Limit> forCrop(Quantity quantity, Category category, CropRole role, LocalDate on);

  /**
   * The limit for a lot of seed.
   *
   * @param quantity what is limited
   * @param category category that the seed is to hold
   * @param seed which rye it is
   * @param on day whose text governs
   * @return empty where the text gives no limit
   */
  Optional<Limit> forLot(Quantity quantity, Category category, Rye seed, LocalDate on);

  /** What the book says when asked for the limit of a crop, where it is silent too. */
  default RulebookAnswer answerForCrop(
      Quantity quantity, Category category, CropRole role, LocalDate on) {
    return answer(forCrop(quantity, category, role, on));
  }

  /** What the book says when asked for the limit of a lot, where it is silent too. */
  default RulebookAnswer answerForLot(
      Quantity quantity, Category category, Rye seed, LocalDate on) {
    return answer(forLot(quantity, category, seed, on));
  }

  private static RulebookAnswer answer(Optional<Limit> limit) {
    return limit
        .<RulebookAnswer>map(RulebookAnswer.Limited::new)
        .orElseGet(RulebookAnswer.Silent::new);
  }

  /** What holds for a category because it holds for another; empty where it has its own lines. */
  default Optional<CategorySubstitution> judgedAs(Category category, LocalDate on) {
    return Optional.empty();
  }

  /** Least primary samples of a lot; empty where neither it nor common practice has a table. */
  default Optional<SamplingIntensity> primarySamples() {
    return Optional.empty();
  }

  /** Every line of this book itself that says that nothing is asked for. */
  default List<NothingAskedLine> nothingAsked() {
    return List.of();
  }

  /** Every line of this book itself, in the order of its file, without what it inherits. */
  List<RulebookLine> lines();

  /** The book that this one tightens and whose limits it inherits. */
  Optional<Rulebook> tightens();
}
