package org.kornspur.processors.finding;

/** As what a lot goes into a mixture. */
public enum Part {
  FEMALE,
  POLLINATOR
}
