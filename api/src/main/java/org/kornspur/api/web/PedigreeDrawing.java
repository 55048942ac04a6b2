package org.kornspur.api.web;

import java.util.List;

/**
 * A pedigree laid out: seasons are columns from left to right. All positions are whole pixels.
 *
 * @param seasons columns
 * @param boxes crops, lots and customers
 * @param lines seed that moved
 */
public record PedigreeDrawing(
    int width, int height, List<Season> seasons, List<Box> boxes, List<Line> lines) {

  /** A column: its name and where it reaches. */
  public record Season(String name, int from, int width) {}

  /** A crop, lot or customer and its place; {@code isStart} where the page is about it. */
  public record Box(int x, int y, int width, int height, Face face, boolean isStart) {}

  /**
   * What a crop, lot or customer shows.
   *
   * @param href empty where there is no page
   * @param state name of the standing, or CUSTOMER or NONE
   * @param title id, cut where it is long
   * @param second line under it
   * @param before how many parents are left out, in words; empty where none
   * @param after how many children are left out, in words; empty where none
   * @param spoken all of it, for who hears the page
   * @param column those of one column stand in one season
   */
  public record Face(
      String href,
      String state,
      String title,
      String second,
      String before,
      String after,
      String spoken,
      int column) {}

  /**
   * Seed that moved.
   *
   * @param points as the points attribute of SVG wants them
   * @param labelX middle of the label
   * @param labelY base line of the label
   * @param troubled whether trouble passes here
   */
  public record Line(String points, int labelX, int labelY, String label, boolean troubled) {}
}
