package org.kornspur.api.web.map;

import jakarta.enterprise.context.RequestScoped;
import jakarta.inject.Inject;
import org.kornspur.api.query.RequestWords;
import org.kornspur.api.web.field.FieldWords;
import org.kornspur.api.web.map.SeasonDrawing.Line;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.ground.GeoPosition;
import org.kornspur.processors.ground.MapPlane;
import org.kornspur.processors.ground.OutlineDistance;

/** Distances between what lies on the map, by the arithmetic of the gate of isolation. */
@RequestScoped
public class MapDistances {
  @Inject SeasonMapAssembler grounds;
  @Inject RequestWords words;

  /**
   * The shortest way between two outlines.
   *
   * @param text in words
   * @param metres as it is shown
   */
  public record Measured(
      String text, String metres, double distanceM, GeoPosition from, GeoPosition to) {

    Line on(MapPlane plane) {
      return SeasonDrawing.line(plane, from, to, distanceM, false);
    }
  }

  Measured between(Subject first, Subject second) {
    OutlineDistance found =
        OutlineDistance.between(grounds.outline(first), grounds.outline(second));
    String metres = new FieldWords(words.texts("field"), words.words()).distance(found.distanceM());
    return new Measured(
        words.texts("map").of("measured", first.id(), second.id(), metres),
        metres,
        found.distanceM(),
        found.onFirst(),
        found.onSecond());
  }
}
