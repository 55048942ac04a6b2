package org.kornspur.api.web.map;

import io.quarkus.runtime.StartupEvent;
import io.quarkus.runtime.configuration.ConfigurationException;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.event.Observes;
import jakarta.inject.Inject;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.kornspur.api.web.field.SvgPath.Point;
import org.kornspur.api.web.map.SeasonDrawing.Box;
import org.kornspur.processors.ground.GeoPosition;
import org.kornspur.processors.ground.MapPlane;

/** The picture that the site provides for the ground of the map. */
@ApplicationScoped
public class MapPicture {
  private static final String PNG = "image/png";
  private static final String JPEG = "image/jpeg";

  @Inject MapSettings settings;

  /**
   * A start with a picture that cannot be shown is refused.
   *
   * @throws ConfigurationException if it cannot
   */
  void check(@Observes StartupEvent start) {
    if (settings.picture().isPresent() != settings.pictureBounds().isPresent()) {
      throw new ConfigurationException(
          "Kornspur could not start: kornspur.map.picture and kornspur.map.picture-bounds mean nothing without each other."
              + " Set both or none.");
    }
    settings
        .picture()
        .filter(file -> !Files.isReadable(file) || type(file).isEmpty())
        .ifPresent(
            file -> {
              throw new ConfigurationException(
                  "Kornspur could not start: kornspur.map.picture is %s; expected a PNG or JPEG file that can be read."
                      .formatted(file));
            });
    settings.pictureBounds().ifPresent(MapPicture::edges);
  }

  /** Where it lies on a map; empty where the site provides none. */
  Optional<Box> on(MapPlane plane) {
    return settings
        .pictureBounds()
        .map(MapPicture::edges)
        .map(
            edges -> {
              Point upper = SeasonDrawing.point(plane, new GeoPosition(edges.get(0), edges.get(3)));
              Point lower = SeasonDrawing.point(plane, new GeoPosition(edges.get(2), edges.get(1)));
              return new Box(upper.x(), upper.y(), lower.x() - upper.x(), lower.y() - upper.y());
            });
  }

  Optional<Path> file() {
    return settings.picture();
  }

  static Optional<String> type(Path file) {
    String name = file.getFileName().toString().toLowerCase(Locale.ROOT);
    if (name.endsWith(".png")) {
      return Optional.of(PNG);
    }
    return name.endsWith(".jpg") || name.endsWith(".jpeg") ? Optional.of(JPEG) : Optional.empty();
  }

  /** West, south, east, north. */
  static List<Double> edges(String bounds) {
    try {
      List<Double> edges =
          Arrays.stream(bounds.split(",", -1)).map(String::strip).map(Double::valueOf).toList();
      if (edges.size() == 4
          && edges.get(0) < edges.get(2)
          && edges.get(1) < edges.get(3)
          && edges.get(0) >= -180
          && edges.get(2) <= 180
          && edges.get(1) > -90
          && edges.get(3) < 90) {
        return edges;
      }
    } catch (NumberFormatException noNumber) {
      // refused below
    }
    throw new ConfigurationException(
        "Kornspur could not start: kornspur.map.picture-bounds is '%s'; expected west,south,east,north in degrees, as"
                .formatted(bounds)
            + " 14.5,52.5,15.1,52.9.");
  }
}
