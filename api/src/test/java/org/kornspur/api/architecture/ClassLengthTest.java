package org.kornspur.api.architecture;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

/** A main class is short, or its Javadoc says why it is one class all the same. */
class ClassLengthTest {
  private static final int MOST_LINES = 250;
  private static final Pattern NOT_COUNTED = Pattern.compile("\\s*|(package|import) .*");
  private static final Pattern TYPE =
      Pattern.compile(
          "^((public|final|abstract|sealed|non-sealed) )*(class|record|interface|enum|@interface) ",
          Pattern.MULTILINE);
  private static final Pattern REASON = Pattern.compile("(/\\*\\*|[.!?]) One class because \\w");

  @Test
  void everyMainClassIsShortOrSaysWhyNot() throws IOException {
    List<Path> sources = new ArrayList<>();
    for (String module : List.of("ingest", "processors", "api")) {
      try (Stream<Path> files = Files.walk(Path.of("..", module, "src", "main", "java"))) {
        files.filter(file -> file.toString().endsWith(".java")).forEach(sources::add);
      }
    }
    List<String> tooLong = new ArrayList<>();
    for (Path source : sources) {
      if (isTooLong(Files.readString(source))) {
        tooLong.add(source.getFileName().toString());
      }
    }

    assertThat(sources).hasSizeGreaterThan(700);
    assertThat(tooLong).isEmpty();
  }

  @Test
  void aLongClassMustSayWhyInItsOwnJavadoc() {
    assertThat(isTooLong(source("/** Does much. */", 250))).isFalse();
    assertThat(isTooLong(source("/** Does much. */", 251))).isTrue();
    assertThat(isTooLong(source("/** Does much. One class because it is one rule. */", 251)))
        .isFalse();
    assertThat(isTooLong(source("/**\n * Does much. One\n * class because it is.\n */", 251)))
        .isFalse();
    assertThat(
            isTooLong(source("/**\n * Does much.\n *\n * <p>One class because it is.\n */", 251)))
        .isFalse();
    assertThat(isTooLong(source("/** Not One class because it is. */", 251))).isTrue();
    assertThat(isTooLong(source("/** Does much. */", 251) + "/** One class because it is. */"))
        .isTrue();
  }

  /** A made-up class of so many lines and its Javadoc. */
  private static String source(String javadoc, int lines) {
    int ofJavadoc = (int) javadoc.lines().count();
    return "package a;\n\nimport b.C;\n\n"
        + javadoc
        + "\nclass Long {\n"
        + "  int a;\n\n".repeat(lines - ofJavadoc - 2)
        + "}\n";
  }

  private static boolean isTooLong(String source) {
    long lines = source.lines().filter(line -> !NOT_COUNTED.matcher(line).matches()).count();
    String head = TYPE.split(source, 2)[0].replaceAll("(\\n \\*|\\s|<p>)+", " ");
    return lines > MOST_LINES && !REASON.matcher(head).find();
  }
}
