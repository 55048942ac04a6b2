package org.kornspur.processors.dossier;

import org.kornspur.contract.Category;

/**
 * What a crop or lot is.
 *
 * @param hybridId hybrid that it belongs to
 * @param seedId component, or the hybrid's own id for F1 seed and technical mixtures
 * @param kind which of the three it is
 * @param category category that it is made for
 * @param cropYear year of harvest
 * @param rulebookId rulebook that it is judged under
 */
public record Material(
    String hybridId, String seedId, Kind kind, Category category, int cropYear, String rulebookId) {

  /** The same seed in another category. */
  Material in(Category other) {
    return new Material(hybridId, seedId, kind, other, cropYear, rulebookId);
  }

  /** Component seed, a sown mixture of female and pollinator, or hybrid seed. */
  public enum Kind {
    COMPONENT,
    TECHNICAL_MIXTURE,
    F1_SEED
  }
}
