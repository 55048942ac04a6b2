package org.kornspur.processors.standards;

import java.time.LocalDate;
import java.util.Set;
import org.kornspur.contract.Category;
import org.kornspur.contract.CropRole;

/**
 * A limit with what it holds for.
 *
 * @param limit the limit
 * @param categories categories of seed that it holds for
 * @param rye which rye it speaks of
 * @param roles roles of a crop that it holds for; of no meaning for seed
 * @param generation generation or class in the words of the text; empty where it names none
 * @param exception whether the text itself allows more here than the book that it tightens
 */
public record RulebookLine(
    Limit limit,
    Set<Category> categories,
    Set<Rye> rye,
    Set<CropRole> roles,
    String generation,
    boolean exception) {

  boolean holdsForCrop(Quantity quantity, Category category, CropRole role, LocalDate on) {
    return holds(quantity, category, Rye.HYBRID, on) && roles.contains(role);
  }

  boolean holdsForLot(Quantity quantity, Category category, Rye seed, LocalDate on) {
    return holds(quantity, category, seed, on);
  }

  private boolean holds(Quantity quantity, Category category, Rye asked, LocalDate on) {
    return limit.quantity() == quantity
        && categories.contains(category)
        && rye.contains(asked)
        && !on.isBefore(limit.inForceFrom())
        && limit.inForceTo().map(last -> !on.isAfter(last)).orElse(true);
  }
}
