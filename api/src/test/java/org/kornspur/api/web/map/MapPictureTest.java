package org.kornspur.api.web.map;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import io.quarkus.runtime.StartupEvent;
import io.quarkus.runtime.configuration.ConfigurationException;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.kornspur.api.web.map.SeasonDrawing.Box;
import org.kornspur.processors.ground.GeoPosition;
import org.kornspur.processors.ground.MapPlane;

/** The picture of the ground that a site may provide. */
class MapPictureTest {
  @TempDir Path folder;

  private static MapPicture picture(Path file, String bounds) {
    MapPicture picture = new MapPicture();
    picture.settings =
        new MapSettings() {
          @Override
          public Optional<Path> picture() {
            return Optional.ofNullable(file);
          }

          @Override
          public Optional<String> pictureBounds() {
            return Optional.ofNullable(bounds);
          }
        };
    return picture;
  }

  /** Its edges are meridians and parallels, so its corners lie where the map has these. */
  @Test
  void itsCornersLieWhereTheMapHasThem() {
    MapPlane plane = MapPlane.at(new GeoPosition(14.8, 52.7));
    Box box = picture(null, "14.5, 52.5, 15.1, 52.9").on(plane).orElseThrow();
    assertThat(box.left()).isCloseTo(-0.3 * plane.lonDegreeM(), within(1e-6));
    assertThat(box.top()).isCloseTo(-0.2 * plane.latDegreeM(), within(1e-6));
    assertThat(box.width()).isCloseTo(0.6 * plane.lonDegreeM(), within(1e-6));
    assertThat(box.height()).isCloseTo(0.4 * plane.latDegreeM(), within(1e-6));
  }

  @Test
  void withoutSettingsThereIsNone() {
    MapPicture none = picture(null, null);
    none.check(new StartupEvent());
    assertThat(none.on(MapPlane.at(new GeoPosition(14.8, 52.7)))).isEmpty();
    assertThat(none.file()).isEmpty();
  }

  @ParameterizedTest
  @ValueSource(strings = {"", "14.5,52.5,15.1", "15.1,52.5,14.5,52.9", "a,b,c,d", "0,0,400,10"})
  void boundsThatAreNoneAreRefusedAtTheStart(String bounds) throws IOException {
    Path file = Files.createFile(folder.resolve("ground.png"));
    assertThatThrownBy(() -> picture(file, bounds).check(new StartupEvent()))
        .isInstanceOf(ConfigurationException.class)
        .hasMessageContaining("kornspur.map.picture-bounds")
        .hasMessageContaining("west,south,east,north");
  }

  @Test
  void aFileThatIsNoPictureIsRefusedAtTheStart() throws IOException {
    Path script = Files.createFile(folder.resolve("ground.svg"));
    for (Path file : new Path[] {script, folder.resolve("missing.png")}) {
      assertThatThrownBy(() -> picture(file, "14.5,52.5,15.1,52.9").check(new StartupEvent()))
          .isInstanceOf(ConfigurationException.class)
          .hasMessageContaining("PNG or JPEG");
    }
    assertThatThrownBy(() -> picture(script, null).check(new StartupEvent()))
        .hasMessageContaining("Set both or none");
  }
}
