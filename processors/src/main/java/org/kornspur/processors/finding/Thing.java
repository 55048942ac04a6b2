package org.kornspur.processors.finding;

/** A kind of unit that is counted. Names of type and constants are part of stored statements. */
public enum Thing {
  POLLINATOR_KERNELS,
  SHEDDING_PLANTS,
  BAGGED_EARS_WITH_SEED,
  NORMAL_SEEDLINGS,
  OFF_TYPES,
  NON_HYBRIDS
}
