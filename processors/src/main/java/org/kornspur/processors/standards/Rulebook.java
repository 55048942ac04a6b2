package org.kornspur.processors.standards;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import org.kornspur.contract.Category;
import org.kornspur.contract.CropRole;

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

  /** The limit for a lot of hybrid rye or of one of its components, without admixture. */
  default Optional<Limit> forLot(Quantity quantity, Category category, LocalDate on) {
    return forLot(quantity, category, Rye.HYBRID, on);
  }

  /** Every line of this book itself, in the order of its file, without what it inherits. */
  List<RulebookLine> lines();

  /** The book that this one tightens and whose limits it inherits. */
  Optional<Rulebook> tightens();
}
