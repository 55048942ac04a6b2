package org.kornspur.api.web;

import java.util.List;

/**
 * What a list can be narrowed by, and what it is narrowed by now.
 *
 * @param id beginning of an id, as asked for; empty where not asked
 * @param any whether anything narrows the list
 */
public record Filters(
    List<Option> seasons,
    List<Option> hybrids,
    List<Option> holders,
    List<Option> categories,
    List<Option> states,
    String id,
    boolean any) {

  /** A value to choose; {@code chosen} where it narrows the list now. */
  public record Option(String value, String label, boolean chosen) {}
}
