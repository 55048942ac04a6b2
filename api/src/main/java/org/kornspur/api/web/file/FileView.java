package org.kornspur.api.web.file;

import java.util.List;
import java.util.Optional;

/**
 * A table that a person sent, as its page shows it.
 *
 * @param working whether somebody is going through its rows just now
 * @param recorded whether its rows were recorded
 * @param told what was told of its form, a sentence each
 * @param refusal why no row can be read; empty where rows can
 * @param unknown columns that are of no field
 * @param lines some of its rows
 */
public record FileView(
    String name,
    String address,
    boolean working,
    boolean recorded,
    int done,
    int all,
    List<Count> counts,
    List<String> told,
    Optional<String> refusal,
    List<Unknown> unknown,
    List<Choice> kinds,
    List<Choice> decimalMarks,
    List<Choice> dayOrders,
    boolean recordable,
    int toRecord,
    int refused,
    List<Line> lines,
    Optional<String> previous,
    Optional<String> next) {

  /**
   * How many rows have a fate.
   *
   * @param href leads to these rows alone; to all where they are shown
   */
  public record Count(String fate, String label, int rows, String href, boolean shown) {}

  /** Something to choose. */
  public record Choice(String value, String label, boolean chosen) {}

  /** A column of no field, with what it may be. */
  public record Unknown(String name, List<Choice> fields) {}

  /**
   * A row.
   *
   * @param place its number, with the sheet where there are several
   */
  public record Line(
      String place, String fate, String fateLabel, String what, List<String> wrong) {}
}
