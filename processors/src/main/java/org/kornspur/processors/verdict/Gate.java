package org.kornspur.processors.verdict;

/** What is checked of a crop or a lot, and how far down the pedigree a failure reaches. */
public enum Gate {
  /** Distance to foreign pollen. */
  ISOLATION(FailureKind.ISOLATION, Reach.EVERY_DESCENDANT),
  /** Plants not true to type at field inspection. */
  OFF_TYPES(FailureKind.PURITY, Reach.EVERY_DESCENDANT),
  /** Female plants that shed pollen at field inspection. */
  SHEDDING_FEMALES(FailureKind.STERILITY, Reach.EVERY_DESCENDANT),
  /** Sterility of the female by examined plants and bagged ears. */
  FEMALE_STERILITY(FailureKind.STERILITY, Reach.EVERY_DESCENDANT),
  /** Other cereals, species hard to separate, wild oats, smuts in the crop. */
  OTHER_PLANTS(FailureKind.PURITY, Reach.UNTIL_SOWN),
  /** Visits of a field inspector to the crop. */
  FIELD_INSPECTIONS(FailureKind.PURITY, Reach.UNTIL_SOWN),
  /** Rye on the same ground in the years before. */
  PREVIOUS_CROPPING(FailureKind.PURITY, Reach.EVERY_DESCENDANT),
  /** Least area of the crop. */
  CROP_AREA(FailureKind.PURITY, Reach.UNTIL_SOWN),
  /** The lots that were sown or mixed are the components that the crossing scheme asks for. */
  COMPONENTS(FailureKind.IDENTITY, Reach.EVERY_DESCENDANT),
  /** Where the seed comes from is known and no lot is its own ancestor. */
  ORIGIN(FailureKind.IDENTITY, Reach.EVERY_DESCENDANT),
  /** Share of pollinator in a technical mixture. */
  BLEND_SHARE(FailureKind.PURITY, Reach.EVERY_DESCENDANT),
  /** No lot gives out more than it holds. */
  MASS_BALANCE(FailureKind.IDENTITY, Reach.EVERY_DESCENDANT),
  /** Plants of the lot grown or tested after the fact. */
  POST_CONTROL(FailureKind.PURITY, Reach.EVERY_DESCENDANT),
  /** Basic seed of a mixture was in post-control before certified seed of it is certified. */
  POST_CONTROL_OF_BASIC_SEED(FailureKind.PURITY, Reach.CERTIFIED_DESCENDANTS),
  GERMINATION(FailureKind.SEED_QUALITY, Reach.UNTIL_CONDITIONED),
  ANALYTICAL_PURITY(FailureKind.SEED_QUALITY, Reach.UNTIL_CONDITIONED),
  OTHER_SEEDS(FailureKind.SEED_QUALITY, Reach.UNTIL_CONDITIONED),
  ERGOT(FailureKind.SEED_QUALITY, Reach.UNTIL_CONDITIONED),
  MOISTURE(FailureKind.SEED_QUALITY, Reach.UNTIL_CONDITIONED),
  LOT_SIZE(FailureKind.SEED_QUALITY, Reach.OWN),
  SAMPLING(FailureKind.SEED_QUALITY, Reach.OWN),
  /**
   * Condemned by a person as impure or not what it is called. What grew from such seed is no
   * better, so every descendant inherits it.
   */
  CONDEMNATION(FailureKind.IDENTITY, Reach.EVERY_DESCENDANT),
  /**
   * Condemned by a person for the seed itself: what dead or damaged seed was sown for is not worse
   * for it, but cleaning or dividing it makes no other lot of it.
   */
  CONDEMNATION_OF_SEED(FailureKind.SEED_QUALITY, Reach.UNTIL_SOWN);

  /** What kind of fault it is for the descendants. */
  public enum FailureKind {
    PURITY,
    STERILITY,
    IDENTITY,
    ISOLATION,
    SEED_QUALITY
  }

  /** How far a failure reaches. */
  public enum Reach {
    /** Only the lot itself. */
    OWN,
    /**
     * Wherever the seed itself goes undone, divided or mixed with other, until it is sown or
     * something is taken out of it in conditioning. Only what fails goes along, and what is beyond
     * a limit and not settled; a lot that is tested itself owes nothing else for its parts. Seed of
     * other species, and that nobody looked for it, is told at the crop too, which may settle it.
     */
    UNTIL_CONDITIONED,
    /**
     * All lots of the same harvest, up to the next sowing; other plants are told at the next crop
     * too, which may settle them.
     */
    UNTIL_SOWN,
    /** Descendants that are to be certified; the subject itself is not held up by it. */
    CERTIFIED_DESCENDANTS,
    /** Every descendant, across sowings and blends. */
    EVERY_DESCENDANT
  }

  private final FailureKind failureKind;
  private final Reach reach;

  Gate(FailureKind failureKind, Reach reach) {
    this.failureKind = failureKind;
    this.reach = reach;
  }

  public FailureKind failureKind() {
    return failureKind;
  }

  public Reach reach() {
    return reach;
  }
}
