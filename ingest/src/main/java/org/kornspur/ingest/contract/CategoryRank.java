package org.kornspur.ingest.contract;

import org.kornspur.contract.Category;

/**
 * Which category of seed is the lower one: breeder's seed, pre-basic, basic, certified, downwards.
 *
 * <p>Seed of a higher category may be put into a lower one whose conditions it meets, never the
 * other way: the generations cannot be wound back. Below certified seed there is no category; seed
 * that does not even hold that is condemned or not fit. Common practice, no source.
 */
public final class CategoryRank {

  private CategoryRank() {}

  /** Whether {@code category} is lower than {@code other}. */
  public static boolean isLower(Category category, Category other) {
    return steps(category) > steps(other);
  }

  /** The lower of two. */
  public static Category lower(Category one, Category other) {
    return isLower(one, other) ? one : other;
  }

  /** Generations below breeder's seed. */
  private static int steps(Category category) {
    return switch (category) {
      case BREEDER -> 0;
      case PRE_BASIC -> 1;
      case BASIC -> 2;
      case CERTIFIED -> 3;
    };
  }
}
