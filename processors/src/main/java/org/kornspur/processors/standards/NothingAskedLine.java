package org.kornspur.processors.standards;

import java.time.LocalDate;
import java.util.Set;
import org.kornspur.contract.Category;
import org.kornspur.contract.CropRole;

/**
 * What a book asks nothing for.
 *
 * @param nothing where it says so
 * @param quantities what is not limited
 * @param categories categories of seed that it holds for
 * @param rye which rye it speaks of
 * @param roles roles of a crop that it holds for; of no meaning for seed
 */
public record NothingAskedLine(
    NothingAsked nothing,
    Set<Quantity> quantities,
    Set<Category> categories,
    Set<Rye> rye,
    Set<CropRole> roles) {

  boolean holdsForCrop(Quantity quantity, Category category, CropRole role, LocalDate on) {
    return holdsForLot(quantity, category, Rye.HYBRID, on) && roles.contains(role);
  }

  boolean holdsForLot(Quantity quantity, Category category, Rye seed, LocalDate on) {
    return quantities.contains(quantity)
        && categories.contains(category)
        && rye.contains(seed)
        && nothing.holds(on);
  }
}
