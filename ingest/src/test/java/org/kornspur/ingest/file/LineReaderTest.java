package org.kornspur.ingest.file;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import org.junit.jupiter.api.Test;

/** Compared with {@link String#lines()}, which ends lines in the same ways. */
class LineReaderTest {

  @Property
  void linesAreThoseOfTheLibrary(@ForAll("texts") String text) {
    assertThat(lines(text)).extracting(LineReaderTest::textOf).isEqualTo(text.lines().toList());
  }

  @net.jqwik.api.Provide
  net.jqwik.api.Arbitrary<String> texts() {
    return net.jqwik.api.Arbitraries.of("a", "ä,", "\n", "\r\n", "\"", "")
        .list()
        .ofMaxSize(30)
        .map(parts -> String.join("", parts));
  }

  @Test
  void aByteOrderMarkIsLeftOutAtTheBeginningAlone() {
    assertThat(lines("\uFEFFa\n\uFEFFb"))
        .extracting(LineReaderTest::textOf)
        .containsExactly("a", "\uFEFFb");
  }

  @Test
  void aLineOverTheLimitIsPassedOverAndTheNextIsRead() {
    List<Line> lines =
        lines("x".repeat(LineReader.LONGEST) + "\n" + "y".repeat(3_000_000) + "\nlast");

    assertThat(lines).extracting(Line::isTooLong).containsExactly(false, true, false);
    assertThat(lines.get(1).length()).isEqualTo(3_000_000);
    assertThat(lines.get(1).bytes()).hasSize(LineReader.KEPT_OF_TOO_LONG);
    assertThat(textOf(lines.get(2))).isEqualTo("last");
    assertThat(lines.get(2).number()).isEqualTo(3);
  }

  @Test
  void linesAcrossTheBufferKeepTogether() {
    String[] words = new String[30];
    Arrays.setAll(words, index -> "w" + "x".repeat(index * 997));

    assertThat(lines(String.join("\n", words)))
        .extracting(LineReaderTest::textOf)
        .containsExactly(words);
  }

  private static List<Line> lines(String text) {
    try {
      LineReader reader =
          new LineReader(new ByteArrayInputStream(text.getBytes(StandardCharsets.UTF_8)));
      List<Line> lines = new ArrayList<>();
      for (Optional<Line> line = reader.next(); line.isPresent(); line = reader.next()) {
        lines.add(line.get());
      }
      return lines;
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static String textOf(Line line) {
    return new String(line.bytes(), StandardCharsets.UTF_8);
  }
}
