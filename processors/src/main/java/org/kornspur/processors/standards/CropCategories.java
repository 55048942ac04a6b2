package org.kornspur.processors.standards;

import java.util.Collections;
import java.util.EnumSet;
import java.util.Set;
import org.kornspur.contract.Category;
import org.kornspur.contract.CropRole;

/**
 * Which categories a crop can be grown for. Certified seed of a hybrid is the seed of the mixture
 * of its components, and there is no certified seed after it; components are basic seed or what
 * comes before it.
 *
 * <p>That a hybrid has one certified generation: SR 2016/244 (Northern Ireland), schedule 2
 * paragraphs 7 to 9. That components are basic seed and before: from memory, the definitions of
 * Council Directive 66/402/EEC, article 2.
 */
public final class CropCategories {
  /** Categories of components of a hybrid. */
  public static final Set<Category> OF_COMPONENTS =
      Collections.unmodifiableSet(EnumSet.of(Category.BREEDER, Category.PRE_BASIC, Category.BASIC));

  private static final Set<Category> OF_F1_SEED = EnumSet.of(Category.CERTIFIED);

  private CropCategories() {}

  /**
   * The last category that seed can have to be sown for a crop; seed of a category before it can
   * too.
   *
   * <p>Certified seed comes directly from basic seed or from seed before it: from memory, Council
   * Directive 66/402/EEC, article 2(1)(E). Components hold at least the category of what is grown
   * from them: common practice, no source. How often a line may be multiplied within one category
   * is the breeder's to say, and no text on it was read.
   */
  public static Category lastSownFor(Category crop) {
    return crop == Category.CERTIFIED ? Category.BASIC : crop;
  }

  /** Categories that a crop in this role can be grown for. */
  public static Set<Category> of(CropRole role) {
    return switch (role) {
      case STERILE_FEMALE, MAINTAINER, POLLINATOR, FERTILE_LINE -> OF_COMPONENTS;
      case F1_MIXTURE -> OF_F1_SEED;
    };
  }
}
