package org.kornspur.api.web;

import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import java.awt.Color;
import java.awt.image.BufferedImage;
import java.awt.image.IndexColorModel;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.condition.EnabledIfSystemProperty;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.kornspur.api.security.Role;
import org.kornspur.api.security.people.TestPeople;
import org.kornspur.api.text.Language;

/**
 * Takes the pictures of the manual from the running program, into the source folder: {@code mvn
 * verify -pl api -am -Dhelp.pictures=true -Dit.test=HelpPicturesIT -Dtest=none
 * -Dsurefire.failIfNoSpecifiedTests=false}. Look at them before you commit them.
 */
@EnabledIfSystemProperty(named = "help.pictures", matches = "true")
class HelpPicturesIT extends BrowserTest {
  private static final Path FOLDER =
      Path.of("src", "main", "resources", "META-INF", "resources", "assets", "help");

  private static final int MOST_COLOURS = 256;
  private static final int HEIGHT_WIDE = 780;
  private static final int WIDTH_WIDE = 1100;

  /**
   * One picture.
   *
   * @param from what stands at its upper edge; empty for the top of the page
   */
  private record Picture(String name, Role role, Screen screen, String path, String from) {}

  private static final List<Picture> PICTURES =
      List.of(
          new Picture("desk", Role.QUALITY, Screen.WIDE, "desk", ""),
          new Picture("lot", Role.QUALITY, Screen.WIDE, "lots/L25-S10", ".gate:has(.NOT_MET)"),
          new Picture("crop", Role.QUALITY, Screen.WIDE, "crops/C25-S01", "#map"),
          new Picture("map", Role.QUALITY, Screen.WIDE, "map/2025?at=crop:C25-S01", "#map"),
          new Picture("sign", Role.QUALITY, Screen.WIDE, "lots/L26-S11/sign", ""),
          new Picture("trace", Role.AUDITOR, Screen.WIDE, "trace?q=L24-S05", ""),
          new Picture("laboratory", Role.LABORATORY, Screen.WIDE, "laboratory", ""),
          new Picture(
              "field-book",
              Role.INSPECTOR,
              Screen.NARROW,
              "field-book/crops/C25-S01/inspection",
              "#tally"));

  @ParameterizedTest
  @EnumSource
  void thePicturesAreTaken(Language language) throws IOException {
    Path folder = Files.createDirectories(FOLDER.resolve(language.tag()));
    for (Picture picture : PICTURES) {
      Page page =
          chromium.signedIn(picture.screen(), language, root, TestPeople.of(picture.role()));
      if (picture.screen() == Screen.WIDE) {
        page.setViewportSize(WIDTH_WIDE, HEIGHT_WIDE);
      }
      assertThat(page.navigate(root + picture.path()).status()).as(picture.path()).isEqualTo(200);
      if (!picture.from().isEmpty()) {
        Locator from = page.locator(picture.from()).first();
        from.evaluate("element => element.scrollIntoView()");
      }
      Path file = folder.resolve(picture.name() + ".png");
      ImageIO.write(
          fewColours(ImageIO.read(new ByteArrayInputStream(page.screenshot()))),
          "png",
          file.toFile());
      assertThat(Files.size(file)).as(file.toString()).isBetween(5_000L, 120_000L);
      page.context().close();
    }
  }

  /** A page has few colours, but for the shades at the edges of letters: a palette holds them. */
  private static BufferedImage fewColours(BufferedImage image) {
    Map<Integer, Integer> counts = new HashMap<>();
    for (int y = 0; y < image.getHeight(); y++) {
      for (int x = 0; x < image.getWidth(); x++) {
        counts.merge(image.getRGB(x, y), 1, Integer::sum);
      }
    }
    int[] palette =
        counts.entrySet().stream()
            .sorted(Map.Entry.<Integer, Integer>comparingByValue(Comparator.reverseOrder()))
            .limit(MOST_COLOURS)
            .mapToInt(Map.Entry::getKey)
            .toArray();
    BufferedImage few =
        new BufferedImage(
            image.getWidth(),
            image.getHeight(),
            BufferedImage.TYPE_BYTE_INDEXED,
            new IndexColorModel(8, palette.length, palette, 0, false, -1, 0));
    Map<Integer, Integer> nearest = new HashMap<>();
    for (int y = 0; y < image.getHeight(); y++) {
      for (int x = 0; x < image.getWidth(); x++) {
        int index = nearest.computeIfAbsent(image.getRGB(x, y), colour -> nearest(palette, colour));
        few.getRaster().setSample(x, y, 0, index);
      }
    }
    return few;
  }

  private static int nearest(int[] palette, int colour) {
    Color wanted = new Color(colour);
    int best = 0;
    int least = Integer.MAX_VALUE;
    for (int i = 0; i < palette.length; i++) {
      Color one = new Color(palette[i]);
      int red = one.getRed() - wanted.getRed();
      int green = one.getGreen() - wanted.getGreen();
      int blue = one.getBlue() - wanted.getBlue();
      int apart = red * red + green * green + blue * blue;
      if (apart < least) {
        least = apart;
        best = i;
      }
    }
    return best;
  }
}
