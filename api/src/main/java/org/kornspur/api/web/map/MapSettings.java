package org.kornspur.api.web.map;

import io.smallrye.config.ConfigMapping;
import java.nio.file.Path;
import java.util.Optional;

/** Settings under {@code kornspur.map.} for what lies below the fields on the map of a season. */
@ConfigMapping(prefix = "kornspur.map")
public interface MapSettings {

  /** Picture of the ground, PNG or JPEG, that the site provides. */
  Optional<Path> picture();

  /**
   * The meridians and parallels at its edges, degrees of WGS84, as {@code west,south,east,north};
   * it must be linear in both.
   */
  Optional<String> pictureBounds();
}
