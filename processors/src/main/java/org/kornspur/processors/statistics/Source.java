package org.kornspur.processors.statistics;

/**
 * Where a published number stands.
 *
 * @param text title and section
 * @param verified whether the text itself was read; false for numbers from memory
 */
public record Source(String text, boolean verified) {

  /** The text, and that it is from memory where it is. */
  public String cited() {
    return verified ? text : text + " (from memory, not verified)";
  }
}
