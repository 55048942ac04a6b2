package org.kornspur.processors.judging;

import org.kornspur.processors.ground.InvalidOutline;
import org.kornspur.processors.ground.IsolationCells;
import org.kornspur.processors.ground.Outline;
import org.kornspur.processors.ground.Plot;

/** A plot with its outline, which can be measured and put into cells. */
public record Located(Plot plot, Outline outline) {

  /**
   * @throws InvalidOutline where the corners make no field, or lie where no cells are made
   */
  static Located of(Plot plot) {
    Outline outline = Outline.ofPositions(plot.outline());
    IsolationCells.cellsOf(outline, plot.cropYear());
    return new Located(plot, outline);
  }
}
