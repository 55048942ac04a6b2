package org.kornspur.processors.finding;

/** What is counted among others. */
public enum Thing {
  POLLINATOR_KERNELS,
  SHEDDING_PLANTS,
  BAGGED_EARS_WITH_SEED,
  NORMAL_SEEDLINGS,
  OFF_TYPES,
  NON_HYBRIDS
}
