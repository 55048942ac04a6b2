package org.kornspur.processors.standards;

/** What a rulebook can limit. The unit that each limit is given in stands beside it. */
public enum Quantity {
  /** Metres between the outlines. */
  ISOLATION_DISTANCE("m", true),
  /** Metres that are still asked for where the authority accepted a shield against pollen. */
  ISOLATION_DISTANCE_SHIELDED("m", true),
  /** Metres to a source that counts as large. */
  ISOLATION_DISTANCE_LARGE_SOURCE("m", true),
  /** Metres also to a stand that does not flower together with the crop. */
  ISOLATION_DISTANCE_FLOWERING_APART("m", true),
  /** Hectares from which on a source counts as large. */
  LARGE_SOURCE_AREA("ha", true),
  /** Off-type plants for each square metre. */
  OFF_TYPES_BY_AREA("plants/m2", true),
  /** Off-type plants for each plant. */
  OFF_TYPES_BY_PLANTS("plants/plant", true),
  /** Shedding plants for each female plant in receptive flower, at one visit. */
  SHEDDING_FEMALES("plants/plant", true),
  /** The same, over all visits together. */
  SHEDDING_FEMALES_ALL_VISITS("plants/plant", true),
  /**
   * The same, from which on a crop is not true to type where the text gives no share; an answer is
   * owed beyond.
   */
  SHEDDING_FEMALES_UNTRUE_TO_TYPE("plants/plant", true),
  FEMALE_STERILITY("%", true),
  OTHER_CEREAL_PLANTS("plants/m2", true),
  HARD_TO_SEPARATE_PLANTS("plants/m2", true),
  WILD_OAT_PLANTS("plants/m2", true),
  SMUT_PLANTS("plants/m2", true),
  FIELD_INSPECTIONS("visits", true),
  /** Tonnes from each hectare beyond which no rye yields. */
  YIELD_MOST("t/ha", true),
  /** Kilograms sown a hectare below which no stand of rye comes up. */
  SOWING_RATE_LEAST("kg/ha", true),
  /** Kilograms sown a hectare above which nobody sows rye. */
  SOWING_RATE_MOST("kg/ha", true),
  /** Visits at which the pollen parent beside a sterile female was looked at. */
  POLLEN_PARENT_INSPECTIONS("visits", true),
  /** Visits in flower. */
  INSPECTIONS_IN_FLOWER("visits", true),
  /** Growth stage from which on a visit and its counts tell. */
  INSPECTION_STAGE("BBCH", true),
  /** Least area in which plants are counted. */
  COUNTED_AREA("m2", true),
  /** Least number of plants among which off-types are counted. */
  COUNTED_PLANTS("plants", true),
  /** Least number of females in receptive flower among which shedding ones are counted. */
  FLOWERING_PLANTS("plants", true),
  /** Least number of plants in a check of sterility. */
  EXAMINED_PLANTS("plants", true),
  /** Least number of bagged ears in a check of sterility. */
  BAGGED_EARS("ears", true),
  /** Years before sowing in which no rye stood on the ground. */
  YEARS_WITHOUT_RYE("years", true),
  /**
   * Part of the crop's ground from which on rye of an earlier year counts as on the same ground.
   */
  SAME_GROUND("%", true),
  /** Least area of the crop. */
  CROP_AREA("ha", true),
  GERMINATION("%"),
  ANALYTICAL_PURITY("%"),
  /** Least mass of the working sample of a purity test. */
  PURITY_SAMPLE_MASS("g"),
  MOISTURE("%"),
  OTHER_SEEDS_TOTAL("seeds"),
  OTHER_CEREAL_SEEDS("seeds"),
  OTHER_PLANT_SEEDS("seeds"),
  RAPHANUS_AND_AGROSTEMMA_SEEDS("seeds"),
  WILD_OAT_SEEDS("seeds"),
  LOLIUM_TEMULENTUM_SEEDS("seeds"),
  ERGOT_BODIES("bodies"),
  /** Mass of the sample that seeds and ergot are counted in. */
  COUNT_SAMPLE_MASS("g"),
  LOT_MASS("kg"),
  /** Lot mass allowed over the limit, percent of it. */
  LOT_MASS_EXCESS("%"),
  SUBMITTED_SAMPLE_MASS("g"),
  /**
   * Kilograms that a lot may give out beyond what it holds, percent of what it holds: weighing
   * tolerance.
   */
  MASS_BALANCE_TOLERANCE("%"),
  /** Screenings of a conditioning, percent of what went in, beyond which they are explained. */
  SCREENINGS_MOST("%"),
  /** Drying loss of a conditioning, percent of what went in, beyond which it is explained. */
  DRYING_LOSS_MOST("%"),
  /** All that a conditioning lost, percent of what went in, beyond which it is explained. */
  CONDITIONING_LOSS_MOST("%"),
  /** What a conditioning lost without a record, percent of what went in. */
  UNRECORDED_LOSS_MOST("%"),
  /** Least number of seeds in a germination test. */
  GERMINATION_SEEDS("seeds"),
  /** Moisture, percent of wet mass, below which no seed in store is. */
  MOISTURE_LEAST("%"),
  /** Grams below which no thousand kernels of rye weigh. */
  KERNEL_WEIGHT_LEAST("g"),
  /** Grams above which no thousand kernels of rye weigh. */
  KERNEL_WEIGHT_MOST("g"),
  /** Least number of replicates by which a thousand-kernel weight is known. */
  KERNEL_WEIGHT_REPLICATES("replicates"),
  /** Coefficient of variation of the replicates beyond which twice as many are needed. */
  KERNEL_WEIGHT_VARIATION("%"),
  /**
   * Months for which a germination test is good, from the end of the month in which it was made.
   */
  GERMINATION_TEST_AGE("months"),
  /** Least germination of seed whose label states the real one in place of the minimum. */
  GERMINATION_IF_STATED("%"),
  /** Applications, granted by the authority, for seed to go with such a label. */
  GERMINATION_LABEL_ACCEPTED("applications"),
  /** Least number of kernels told apart in a sample of a technical mixture. */
  KERNELS_TOLD_APART("kernels"),
  /** Share of pollinator in a technical mixture; its limit is the breeder's, not a rulebook's. */
  BLEND_SHARE("%"),
  /** Percentage points beyond the breeder's tolerance that a blend may lie off. */
  BLEND_SHARE_EXTRA_TOLERANCE("percentage points"),
  /** Share of open-pollinated rye in hybrid seed to which it was added. */
  OPEN_POLLINATED_SHARE("%"),
  /** Post-control results of basic seed before certified seed that comes of it is certified. */
  POST_CONTROL_BEFORE_CERTIFICATION("results"),
  /** Off-type plants for each plant in post-control where the breeder states no purity. */
  POST_CONTROL_OFF_TYPES("plants/plant"),
  POST_CONTROL_SHEDDING("plants/plant"),
  POST_CONTROL_NON_HYBRIDS("plants/plant"),
  /** Share of plants that are no hybrid from which on the label states the share of hybrid seed. */
  POST_CONTROL_NON_HYBRIDS_STATED("plants/plant"),
  /** Off-type plants for each plant of the female component, as a share and no reject number. */
  POST_CONTROL_FEMALE_OFF_TYPES("plants/plant"),
  /** Plants of the female component that are not male-sterile, as such a share. */
  POST_CONTROL_FEMALE_SHEDDING("plants/plant"),
  /** Least number of plants grown or tested in post-control. */
  POST_CONTROL_PLANTS("plants"),
  /** Risk of refusing a lot that just meets the standard, by which reject numbers are found. */
  POST_CONTROL_PRODUCER_RISK("%");

  private final String unit;
  private final boolean ofCrop;

  Quantity(String unit) {
    this(unit, false);
  }

  Quantity(String unit, boolean ofCrop) {
    this.unit = unit;
    this.ofCrop = ofCrop;
  }

  /** Whether it is limited in a crop; otherwise in a lot of seed. */
  public boolean ofCrop() {
    return ofCrop;
  }

  public String unit() {
    return unit;
  }
}
