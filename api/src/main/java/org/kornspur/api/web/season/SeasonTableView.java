package org.kornspur.api.web.season;

import java.util.List;
import org.kornspur.api.query.season.SeasonView;
import org.kornspur.processors.verdict.Fitness;

/**
 * The crops, or the lots, of seasons or of multipliers, a line each.
 *
 * @param masses whether kilograms are told
 * @param mayExport whether the facts of a season may be taken along
 * @param mayMap whether its fields may be
 */
public record SeasonTableView(List<Row> rows, boolean masses, boolean mayExport, boolean mayMap) {
  /** Width of the drawings, pixels. */
  static final int BAR_WIDTH = 320;

  /**
   * One line.
   *
   * @param label season or multiplier
   * @param href where more of it stands; empty where nowhere
   */
  public record Row(String label, String href, SeasonView season) {

    /**
     * The three counts as parts of a drawing {@link #BAR_WIDTH} wide.
     *
     * @param most crops or lots of the line that has most
     */
    public List<Part> bar(int most) {
      int notFitTo = pixels(season.notFit(), most);
      int owedTo = pixels(season.notFit() + season.owed(), most);
      return List.of(
          new Part(Fitness.NOT_FIT.name(), 0, notFitTo),
          new Part(Fitness.EVIDENCE_OWED.name(), notFitTo, owedTo - notFitTo),
          new Part(Fitness.FIT.name(), owedTo, pixels(season.all(), most) - owedTo));
    }

    public int fitAt() {
      return ofHundred(season.fitShare().percent());
    }

    public int fitFrom() {
      return ofHundred(season.fitShare().lowerPercent());
    }

    public int fitTo() {
      return ofHundred(season.fitShare().upperPercent());
    }

    private static int ofHundred(double percent) {
      return (int) Math.round(percent / 100 * BAR_WIDTH);
    }

    private static int pixels(int counted, int most) {
      return (int) Math.round((double) counted * BAR_WIDTH / most);
    }
  }

  /** A part of a bar: from where and how wide, pixels. */
  public record Part(String state, int from, int width) {}

  public int most() {
    return rows.stream().mapToInt(row -> row.season().all()).max().orElse(1);
  }
}
