package org.kornspur.api.web.help;

import static org.assertj.core.api.Assertions.assertThat;

import io.smallrye.config.ConfigMapping;
import io.smallrye.config.WithDefault;
import java.io.IOException;
import java.lang.reflect.Method;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.kornspur.api.text.Language;

/** The topic on settings names every setting of the program, and no other. */
class SettingsTopicTest {
  private static final Path SOURCES = Path.of("src", "main", "java");
  private static final Pattern ROW =
      Pattern.compile("(?m)^\\| `(kornspur\\.[^`]+)` \\| (?:`([^`]+)`)?");
  private static final Pattern NAME = Pattern.compile("`(kornspur\\.[a-z0-9.-]+)(?:=[^`]*)?`");

  /** Names with our prefix that are no settings: topics, and keys of Kafka's clients. */
  private static final Set<String> OTHER_NAMES =
      Set.of(
          "kornspur.facts",
          "kornspur.quarantine",
          "kornspur.people",
          "kornspur.plans",
          "kornspur.cause-notes",
          "kornspur.notification-choices",
          "kornspur.notification-messages",
          "kornspur.chain",
          "kornspur.checkpoints",
          "kornspur.edges",
          "kornspur.value.serializer",
          "kornspur.value.deserializer",
          "kornspur.value.jars");

  @ParameterizedTest
  @EnumSource
  void everySettingIsDescribedWithItsDefault(Language language) {
    Map<String, Optional<String>> described = new TreeMap<>();
    ROW.matcher(HelpTexts.markdown(language, HelpTopic.SETTINGS))
        .results()
        .forEach(
            row ->
                described.put(
                    row.group(1).replaceAll("\"[^\"]*\"", "*"), Optional.ofNullable(row.group(2))));
    Map<String, Optional<String>> known = settings();
    assertThat(known).hasSizeGreaterThan(30);
    assertThat(described.keySet()).isEqualTo(known.keySet());
    known.forEach(
        (name, value) ->
            value.ifPresent(
                given -> assertThat(described.get(name)).as(name).isEqualTo(Optional.of(given))));
  }

  @ParameterizedTest
  @EnumSource
  void everySettingThatAnotherTopicNamesExists(Language language) {
    Set<String> known = new TreeSet<>(settings().keySet());
    known.addAll(OTHER_NAMES);
    for (HelpTopic topic : HelpTopic.values()) {
      assertThat(HelpTextsTest.all(NAME, HelpTexts.markdown(language, topic)))
          .as("%s in %s", topic, language)
          .isSubsetOf(known);
    }
  }

  @Test
  void theSettingsAreFound() {
    assertThat(settings())
        .containsEntry("kornspur.partitions", Optional.of("4"))
        .containsKeys("kornspur.release.two-persons", "kornspur.oidc.client-id", "kornspur.gtin.*");
  }

  /** Every setting by name, with the default that its interface gives. */
  private static Map<String, Optional<String>> settings() {
    Map<String, Optional<String>> found = new TreeMap<>();
    try (Stream<Path> sources = Files.walk(SOURCES)) {
      for (Path source : sources.filter(file -> file.toString().endsWith(".java")).toList()) {
        if (Files.readString(source).contains("\n@ConfigMapping(")) {
          String name = SOURCES.relativize(source).toString().replace('/', '.');
          Class<?> type = Class.forName(name.substring(0, name.length() - ".java".length()));
          add(found, type.getAnnotation(ConfigMapping.class).prefix(), type);
        }
      }
    } catch (IOException | ClassNotFoundException e) {
      throw new AssertionError(e);
    }
    return found;
  }

  private static void add(Map<String, Optional<String>> found, String prefix, Class<?> type) {
    for (Method method : type.getDeclaredMethods()) {
      String name =
          prefix + "." + method.getName().replaceAll("(?<=[a-z0-9])([A-Z])", "-$1").toLowerCase();
      if (method.getReturnType().isInterface()
          && method.getReturnType().getEnclosingClass() == type) {
        add(found, name, method.getReturnType());
      } else {
        WithDefault value = method.getAnnotation(WithDefault.class);
        found.put(
            Map.class.isAssignableFrom(method.getReturnType()) ? name + ".*" : name,
            Optional.ofNullable(value).map(WithDefault::value));
      }
    }
  }
}
