package org.kornspur.processors.statistics;

/**
 * Where a published number stands.
 *
 * @param text title and section
 * @param verified whether the text itself was read; false for numbers from memory
 */
public record Source(String text, boolean verified) {}
