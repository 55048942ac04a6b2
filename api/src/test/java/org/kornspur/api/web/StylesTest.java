package org.kornspur.api.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

/**
 * All pages share one look: sizes of letters and colours are named once, at the top of {@code
 * kornspur.css}, where the dark takes the place of the light.
 */
class StylesTest {
  private static final Path STYLES = Path.of("src/main/resources/META-INF/resources/assets");

  private static final Pattern SIZE = Pattern.compile("font-size: ([^;]+);");

  /** Beside the named ones: the size of the page, that of the words around, and drawings. */
  private static final Pattern KNOWN_SIZE =
      Pattern.compile("var\\(--(small|large|title)\\)|1rem|[0-9.]+em|[0-9]+px");

  private static final Pattern COLOUR =
      Pattern.compile("(?<!url\\()#[0-9a-f]{3,8}\\b|rgba?\\(|hsla?\\(");

  @Test
  void lettersHaveTheSizesOfOneScale() throws IOException {
    assertThat(found(SIZE, all())).hasSizeGreaterThan(20);
    assertThat(found(SIZE, all()))
        .extracting(size -> size.group(1))
        .allMatch(size -> KNOWN_SIZE.matcher(size).matches());
  }

  @Test
  void coloursAreNamedOnce() throws IOException {
    String main = Files.readString(STYLES.resolve("kornspur.css"));
    String named = main.substring(0, main.indexOf("*,\n*::before"));

    assertThat(found(COLOUR, named)).hasSizeGreaterThan(20);
    assertThat(found(COLOUR, all())).hasSameSizeAs(found(COLOUR, named));
  }

  private static List<MatchResult> found(Pattern what, String styles) {
    return what.matcher(styles).results().toList();
  }

  private static String all() throws IOException {
    try (Stream<Path> files = Files.walk(STYLES)) {
      StringBuilder styles = new StringBuilder();
      for (Path file : files.filter(path -> path.toString().endsWith(".css")).toList()) {
        styles.append(Files.readString(file));
      }
      return styles.toString();
    }
  }
}
