package org.kornspur.api.text;

import static java.beans.Introspector.decapitalize;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.io.Reader;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Properties;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.regex.MatchResult;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;
import org.kornspur.api.command.audit.AuditPackMaker;
import org.kornspur.api.web.NavigationItem;
import org.kornspur.api.web.fieldbook.FieldBookForm;
import org.kornspur.api.web.laboratory.LaboratoryForm;
import org.kornspur.api.web.laboratory.LaboratorySample;
import org.kornspur.api.web.record.ContractForm;
import org.kornspur.contract.CauseNoteKind;
import org.kornspur.contract.CropRole;
import org.kornspur.contract.InspectedPart;
import org.kornspur.contract.NotificationChannel;
import org.kornspur.contract.NotificationFailure;
import org.kornspur.contract.NotificationFrequency;
import org.kornspur.contract.PollenSourceKind;
import org.kornspur.contract.QuarantineState;
import org.kornspur.ingest.chain.LogFinding;
import org.kornspur.ingest.proof.ProofFinding;
import org.kornspur.ingest.text.TextBundle;
import org.kornspur.ingest.verify.VerifyResult;
import org.kornspur.processors.advice.PredictionAgainstTruth;
import org.kornspur.processors.recall.LooseEnd;
import org.kornspur.processors.statistics.RangeChart;
import org.kornspur.standing.ReleaseStep;

/** Templates are checked here for the texts that they name, as a compiler would. */
class PageTextsTest {
  private static final Path TEMPLATES = Path.of("src/main/resources/templates");
  private static final Path CODE = Path.of("src/main/java");

  /** Makes the forms of the field book and of the laboratory, with the texts of either. */
  private static final Path FORMS = CODE.resolve("org/kornspur/api/web/form");

  private static final Set<String> OF_FORMS = Set.of("laboratory", "book");

  private static final Pattern IN_CODE =
      Pattern.compile("(?:texts|messages|\\))\\s*\\.of\\(\\s*\"(\\w+)\"\\s*[,)]");
  private static final Pattern LITERAL = Pattern.compile("\"([A-Za-z]\\w*)\"");
  private static final Path SCRIPTS = Path.of("src/main/resources/META-INF/resources/assets");
  private static final Pattern IN_SCRIPT = Pattern.compile("(?:\\btexts\\.|')(\\w+)");

  /** Texts of these keys are filled in by scripts, so their arguments have names. */
  private static final String OPEN = "script";

  /** What a text belongs to, by its key: a hint to a field, a legend to a section, and so on. */
  private static final Pattern OF_ANOTHER = Pattern.compile("\\d+$|Remedy$|Hint$|^section");

  private static final Path TEXTS = Path.of("src/main/resources/text");
  private static final int MOST_WORDS = 15;
  private static final Set<String> CITATIONS_AND_COMMANDS = Set.of("planSource", "logAgain");
  private static final Pattern SENTENCE_END = Pattern.compile("(?<=[.!?:])\\s+");
  private static final Pattern WORD = Pattern.compile("\\S*[\\p{L}\\d]\\S*");
  private static final Pattern ARGUMENT = Pattern.compile("\\{\\d+}");
  private static final Pattern CHOICE =
      Pattern.compile("\\{\\d+, (?:select|plural),((?: \\S+ \\{[^{}]*})+)}");
  private static final Pattern FORM = Pattern.compile("\\S+ \\{([^{}]*)}");

  static Stream<String> names() {
    return Stream.concat(TextResolver.NAMES.stream(), Stream.of("headlines"));
  }

  @ParameterizedTest
  @MethodSource("names")
  void bothLanguagesHaveTheSameTextsWithTheSameArguments(String name) {
    TextBundle english = texts(Language.ENGLISH, name);
    TextBundle german = texts(Language.GERMAN, name);

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
        TextBundle texts = texts(Language.ENGLISH, text.name());
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
    Map<Path, Set<String>> byFolder = new TreeMap<>();
    names().forEach(name -> folders(name).forEach(at -> keysOf(byFolder, at).addAll(keys(name))));
    int named = 0;
    Set<String> missing = new TreeSet<>();
    for (Path file : files(CODE)) {
      Set<String> known = byFolder.get(file.getParent());
      if (known != null) {
        Set<String> keys = found(IN_CODE, file);
        named += keys.size();
        keys.stream()
            .filter(key -> !known.contains(key))
            .forEach(key -> missing.add(file.getFileName() + ": " + key));
      }
    }

    assertThat(named).isGreaterThan(60);
    assertThat(missing).isEmpty();
  }

  @ParameterizedTest
  @MethodSource("names")
  void everyTextIsNamed(String name) throws IOException {
    Set<String> named = new TreeSet<>();
    for (Path folder : folders(name)) {
      for (Path file : files(folder)) {
        named.addAll(found(LITERAL, file));
      }
    }
    for (Path file : files(CODE)) {
      String code = Files.readString(file);
      if (code.contains("PageTexts.in(") && code.contains(", \"" + name + "\")")) {
        named.addAll(found(LITERAL, file));
      }
    }
    for (Path template : files(TEMPLATES)) {
      named(Files.readString(template)).stream()
          .filter(text -> text.name().equals(name))
          .forEach(text -> named.add(text.key()));
    }
    Set<String> scripts = new TreeSet<>();
    for (String folder : List.of("field-book", "map")) {
      for (Path file : files(SCRIPTS.resolve(folder))) {
        scripts.addAll(found(IN_SCRIPT, file));
      }
    }
    Set<String> unused =
        keys(name).stream()
            .filter(key -> !key.contains("."))
            .filter(key -> !named.contains(key))
            .filter(key -> !named.contains(decapitalize(OF_ANOTHER.matcher(key).replaceAll(""))))
            .filter(key -> !scripts.contains(decapitalize(key.replaceFirst("^" + OPEN, ""))))
            .collect(Collectors.toCollection(TreeSet::new));

    assertThat(unused).isEmpty();
  }

  static Stream<String> namesOfPages() {
    return names().filter(name -> !name.equals("paper"));
  }

  /** A sentence of a page is read at one go: what is, then what to do. */
  @ParameterizedTest
  @MethodSource("namesOfPages")
  void noSentenceIsLong(String name) throws IOException {
    for (Language language : Language.values()) {
      Properties texts = new Properties();
      try (Reader file =
          Files.newBufferedReader(TEXTS.resolve(name + "_" + language.tag() + ".properties"))) {
        texts.load(file);
      }
      texts.keySet().removeAll(CITATIONS_AND_COMMANDS);
      assertThat(texts.values())
          .flatExtracting(text -> List.of(SENTENCE_END.split(simple(text.toString()))))
          .allSatisfy(
              sentence ->
                  assertThat(WORD.matcher(sentence.toString()).results().count())
                      .as("words of “%s”", sentence)
                      .isLessThanOrEqualTo(MOST_WORDS));
    }
  }

  /** Each argument as one word; of what depends on an argument the longest form. */
  private static String simple(String pattern) {
    String text = ARGUMENT.matcher(pattern).replaceAll("x");
    Matcher choice = CHOICE.matcher(text);
    return choice.find()
        ? simple(text.substring(0, choice.start()) + longest(choice) + text.substring(choice.end()))
        : text;
  }

  private static String longest(MatchResult choice) {
    return FORM.matcher(choice.group(1))
        .results()
        .map(form -> form.group(1))
        .max(Comparator.comparingInt(String::length))
        .orElseThrow();
  }

  static Stream<Arguments> constants() {
    return Stream.of(
        Arguments.of("audit", "part", AuditPackMaker.Part.class),
        Arguments.of("audit", "proofResult", VerifyResult.class),
        Arguments.of("audit", "logResult", VerifyResult.class),
        Arguments.of("audit", "proofFinding", ProofFinding.Kind.class),
        Arguments.of("audit", "logFinding", LogFinding.Kind.class),
        Arguments.of("laboratory", "formOf", LaboratoryForm.class),
        Arguments.of("laboratory", "progress", LaboratorySample.Progress.class),
        Arguments.of("book", "formOf", FieldBookForm.class),
        Arguments.of("book", "roleOf", CropRole.class),
        Arguments.of("book", "partOf", InspectedPart.class),
        Arguments.of("book", "kindOf", PollenSourceKind.class),
        Arguments.of("desk", "done", CauseNoteKind.class),
        Arguments.of("field", "cropRole", CropRole.class),
        Arguments.of("field", "inspected", InspectedPart.class),
        Arguments.of("field", "kind", PollenSourceKind.class),
        Arguments.of("notifications", "frequency", NotificationFrequency.class),
        Arguments.of("notifications", "failure", NotificationFailure.class),
        Arguments.of("notifications", "channel", NotificationChannel.class),
        Arguments.of("paper", "step", ReleaseStep.class),
        Arguments.of("quarantine", "state", QuarantineState.class),
        Arguments.of("record", "work", ContractForm.Work.class),
        Arguments.of("seasons", "fit", PredictionAgainstTruth.Fit.class),
        Arguments.of("seasons", "steadiness", RangeChart.Steadiness.class),
        Arguments.of("trace", "looseEnd", LooseEnd.Kind.class));
  }

  @ParameterizedTest
  @MethodSource("constants")
  void everyConstantHasItsText(String name, String key, Class<? extends Enum<?>> type) {
    assertThat(type.getEnumConstants())
        .allSatisfy(constant -> assertThat(keys(name)).contains(key + "." + constant));
  }

  @Test
  void everyPlaceOfTheNavigationHasItsText() {
    assertThat(NavigationItem.values())
        .filteredOn(item -> !item.href().isEmpty())
        .allSatisfy(item -> assertThat(keys("frame")).contains("place." + item));
  }

  @Test
  void aTextWithTooFewArgumentsIsAnError() {
    PageTexts texts = PageTexts.in(Language.ENGLISH, "lot");

    assertThatThrownBy(() -> texts.of("traceCut"))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("traceCut");
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
  private static Set<String> constants(TextBundle texts) {
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

  /** The folders whose code takes the texts of this name: those of who asks for them. */
  private static Set<Path> folders(String name) {
    Set<Path> folders = new TreeSet<>(OF_FORMS.contains(name) ? Set.of(FORMS) : Set.of());
    try {
      for (Path file : files(CODE)) {
        if (Files.readString(file).contains("texts(\"" + name + "\")")) {
          folders.add(file.getParent());
        }
      }
    } catch (IOException unreadable) {
      throw new UncheckedIOException(unreadable);
    }
    return folders;
  }

  private static Set<String> keysOf(Map<Path, Set<String>> byFolder, Path folder) {
    return byFolder.computeIfAbsent(folder, none -> new TreeSet<>());
  }

  /** All keys, and those before the names of constants. */
  private static Set<String> keys(String name) {
    TextBundle texts = texts(Language.ENGLISH, name);
    Set<String> keys = new TreeSet<>(texts.keys());
    keys.addAll(constants(texts));
    return keys;
  }

  private static Set<String> found(Pattern pattern, Path file) throws IOException {
    return pattern
        .matcher(Files.readString(file))
        .results()
        .map(found -> found.group(1))
        .collect(Collectors.toSet());
  }

  private static TextBundle texts(Language language, String name) {
    return TextBundle.read(language.locale(), PageTexts.class, "text/" + name);
  }

  private static List<Path> files(Path folder) throws IOException {
    try (Stream<Path> files = Files.walk(folder)) {
      return files.filter(Files::isRegularFile).toList();
    }
  }
}
