package org.kornspur.api.text;

import static java.beans.Introspector.decapitalize;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.kornspur.ingest.text.Texts;

/** Templates are checked here for the texts that they name, as a compiler would. */
class PageTextsTest {
  private static final Path TEMPLATES = Path.of("src/main/resources/templates");
  private static final Path CODE = Path.of("src/main/java");
  private static final Pattern IN_CODE =
      Pattern.compile("(?:texts|messages|\\))\\s*\\.of\\(\\s*\"(\\w+)\"");
  private static final Pattern LITERAL = Pattern.compile("\"([A-Za-z]\\w*)\"");
  private static final Path SCRIPTS = Path.of("src/main/resources/META-INF/resources/assets");
  private static final Pattern IN_SCRIPT = Pattern.compile("(?:\\btexts\\.|')(\\w+)");

  /** Texts of these keys are filled in by scripts, so their arguments have names. */
  private static final String OPEN = "script";

  /** What a text belongs to, by its key: a hint to a field, a legend to a section, and so on. */
  private static final Pattern OF_ANOTHER = Pattern.compile("\\d+$|Remedy$|Hint$|^section");

  static Stream<String> names() {
    return Stream.concat(TextResolver.NAMES.stream(), Stream.of("standing"));
  }

  @ParameterizedTest
  @MethodSource("names")
  void bothLanguagesHaveTheSameTextsWithTheSameArguments(String name) {
    Texts english = texts(Language.ENGLISH, name);
    Texts german = texts(Language.GERMAN, name);

    assertThat(german.keys()).isEqualTo(english.keys());
    for (String key : english.keys()) {
      assertThat(german.arguments(key)).as(key).isEqualTo(english.arguments(key));
      if (!key.startsWith(OPEN)) {
        assertThat(english.arguments(key))
            .as("arguments of %s count from 0", key)
            .isEqualTo(numbers(english.arguments(key).size()));
      }
    }
  }

  @Test
  void everyTextThatATemplateNamesIsThereWithItsArguments() throws IOException {
    List<String> wrong = new ArrayList<>();
    int named = 0;
    for (Path template : files(TEMPLATES)) {
      for (Named text : named(Files.readString(template))) {
        named++;
        Texts texts = texts(Language.ENGLISH, text.name());
        boolean plain =
            texts.has(text.key()) && texts.arguments(text.key()).size() == text.arguments();
        boolean byConstant = text.arguments() == 1 && constants(texts).contains(text.key());
        if (!plain && !byConstant) {
          wrong.add(template.getFileName() + ": " + text);
        }
      }
    }

    assertThat(wrong).isEmpty();
    assertThat(named).isGreaterThan(500);
  }

  @Test
  void everyTextThatCodeNamesIsThere() throws IOException {
    Set<String> all =
        names()
            .map(name -> texts(Language.ENGLISH, name))
            .flatMap(texts -> Stream.concat(texts.keys().stream(), constants(texts).stream()))
            .collect(Collectors.toSet());
    Set<String> named = new TreeSet<>();
    for (Path file : files(CODE)) {
      IN_CODE
          .matcher(Files.readString(file))
          .results()
          .map(found -> found.group(1))
          .forEach(named::add);
    }

    assertThat(named).hasSizeGreaterThan(60);
    assertThat(all).containsAll(named);
  }

  @Test
  void everyTextIsNamed() throws IOException {
    Set<String> named = new TreeSet<>();
    for (Path file : files(CODE)) {
      LITERAL
          .matcher(Files.readString(file))
          .results()
          .map(found -> found.group(1))
          .forEach(named::add);
    }
    for (Path template : files(TEMPLATES)) {
      named(Files.readString(template)).forEach(text -> named.add(text.key()));
    }
    Set<String> scripts = new TreeSet<>();
    for (Path file : files(SCRIPTS.resolve("field-book"))) {
      IN_SCRIPT
          .matcher(Files.readString(file))
          .results()
          .map(found -> found.group(1))
          .forEach(scripts::add);
    }
    Set<String> unused = new TreeSet<>();
    names()
        .flatMap(name -> texts(Language.ENGLISH, name).keys().stream())
        .map(key -> key.replaceAll("\\..*", ""))
        .filter(key -> !named.contains(key))
        .filter(key -> !named.contains(decapitalize(OF_ANOTHER.matcher(key).replaceAll(""))))
        .filter(key -> !scripts.contains(decapitalize(key.replaceFirst("^" + OPEN, ""))))
        .forEach(unused::add);

    assertThat(unused).isEmpty();
  }

  @Test
  void anUnknownKeyIsAnError() {
    PageTexts texts = PageTexts.in(Language.GERMAN, "lot");

    assertThatThrownBy(() -> texts.of("no-such-text"))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("no-such-text");
  }

  private record Named(String name, String key, int arguments) {}

  /** Texts as {@code {name:key(first, second)}}, in attributes and conditions too. */
  private static List<Named> named(String template) {
    Pattern text =
        Pattern.compile("\\b(" + String.join("|", TextResolver.NAMES) + "):(\\w+)(\\(?)");
    return text.matcher(template)
        .results()
        .map(found -> new Named(found.group(1), found.group(2), arguments(found, template)))
        .toList();
  }

  private static int arguments(MatchResult found, String template) {
    if (found.group(3).isEmpty()) {
      return 0;
    }
    int depth = 1;
    int count = 1;
    for (int at = found.end(); depth > 0; at++) {
      char next = template.charAt(at);
      if (next == '(') {
        depth++;
      } else if (next == ')') {
        depth--;
      } else if (next == ',' && depth == 1) {
        count++;
      }
    }
    return count;
  }

  /** Keys before the names of constants. */
  private static Set<String> constants(Texts texts) {
    return texts.keys().stream()
        .filter(key -> key.contains("."))
        .map(key -> key.replaceAll("\\..*", ""))
        .collect(Collectors.toSet());
  }

  private static Set<String> numbers(int count) {
    return Stream.iterate(0, at -> at + 1)
        .limit(count)
        .map(String::valueOf)
        .collect(Collectors.toSet());
  }

  private static Texts texts(Language language, String name) {
    return Texts.read(language.locale(), PageTexts.class, "text/" + name);
  }

  private static List<Path> files(Path folder) throws IOException {
    try (Stream<Path> files = Files.walk(folder)) {
      return files.filter(Files::isRegularFile).toList();
    }
  }
}
