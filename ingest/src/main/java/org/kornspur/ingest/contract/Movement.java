package org.kornspur.ingest.contract;

/** How a fact moves seed. What is told apart by kinds of movement is drawn from this. */
public enum Movement {
  /** Out of lots into a crop. */
  SOWN,
  /** Out of a crop into a lot. */
  HARVESTED,
  /** Out of lots into lots of the same harvest, and worked on: it may be other seed afterwards. */
  CONDITIONED,
  /** Divided or put together: seed of the same harvest, as it was. */
  REGROUPED,
  /** Out of lots of several components into one: each as it was, in a seed of another kind. */
  MIXED,
  /** Out of a lot to a customer. */
  HANDED_OVER;

  /** Whether seed goes out of lots and into lots. */
  public boolean isFromLotToLot() {
    return switch (this) {
      case CONDITIONED, REGROUPED, MIXED -> true;
      case SOWN, HARVESTED, HANDED_OVER -> false;
    };
  }
}
