package org.kornspur.api.guides;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.regex.MatchResult;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** README.md and DEVELOPERS.md name what exists, and package documentation does too. */
class GuidesTest {
  private static final SourceNames NAMES = SourceNames.read();
  private static final Path README = SourceNames.ROOT.resolve("README.md");
  private static final Path DEVELOPERS = SourceNames.ROOT.resolve("DEVELOPERS.md");

  private static final Pattern CODE = Pattern.compile("(?<!`)`([^`\\n]+)`(?!`)");
  private static final Pattern BLOCK = Pattern.compile("(?ms)^ *```.*?^ *```");
  private static final Pattern LINK = Pattern.compile("\\]\\(([^)\\s]+)\\)");

  /** A type, a member of one, or a type with a wildcard for its beginning. */
  private static final Pattern TYPE =
      Pattern.compile("@?([A-Z]\\w*[a-z]\\w*)(?:\\.(\\w+))?(?:\\(.*\\))?");

  /** A package, as in {@code processors/…/gates}. */
  private static final Pattern PACKAGE = Pattern.compile("(ingest|processors|api)/…/([a-z/]+)");

  private static final Pattern FILE =
      Pattern.compile("[\\w./-]*\\w\\.(properties|java|md|yaml|yml|avdl|json|txt|js|css|xml|html)");

  private static final Pattern FOLDER = Pattern.compile("\\.?(\\w[\\w.-]*/)+[\\w.-]*");

  /** Types of others that a guide may name, and words that look like one. */
  private static final Set<String> OF_OTHERS =
      Set.of(
          "BeanParam",
          "Error",
          "HttpOnly",
          "Message",
          "PermissionsAllowed",
          "QuarkusTest",
          "QueryParam",
          "SecurityIdentity",
          "Set",
          "StandardAuthorizer",
          "Test",
          "VertxServiceProvider");

  @Test
  void theReadmeIsShort() {
    assertThat(SourceNames.text(README).lines().count()).isLessThanOrEqualTo(120);
  }

  /** What a person is told to run is what the build machine runs. */
  @Test
  void theReadmesTestCommandIsTheOneOfTheBuildMachine() {
    String run = SourceNames.text(SourceNames.ROOT.resolve(".ci/run"));
    List<String> commands =
        Pattern.compile("(?m)^mvn .*$").matcher(run).results().map(MatchResult::group).toList();
    assertThat(commands).containsExactly("mvn -B -ntp verify \"$@\"");
    Matcher section =
        Pattern.compile("(?s)\n## Test it\n.*?```sh\n(.*?)```").matcher(SourceNames.text(README));
    assertThat(section.find()).isTrue();
    assertThat(section.group(1).lines().findFirst()).hasValue("mvn verify");
  }

  @Test
  void theReadmeShowsTwoPages() {
    assertThat(
            Pattern.compile("!\\[[^\\]]+\\]\\([^)]+\\.png\\)")
                .matcher(SourceNames.text(README))
                .results()
                .count())
        .isEqualTo(2);
  }

  @ParameterizedTest
  @ValueSource(strings = {"README.md", "DEVELOPERS.md"})
  void everyLinkOfAGuideLeadsToAFile(String guide) {
    List<String> links =
        LINK.matcher(CODE.matcher(SourceNames.text(SourceNames.ROOT.resolve(guide))).replaceAll(""))
            .results()
            .map(link -> link.group(1))
            .filter(link -> !link.matches("[a-z]+:.*|#.*"))
            .toList();
    assertThat(links).isNotEmpty();
    assertThat(links)
        .allSatisfy(
            link ->
                assertThat(SourceNames.ROOT.resolve(link.replaceAll("#.*", ""))).as(link).exists());
  }

  @ParameterizedTest
  @ValueSource(strings = {"README.md", "DEVELOPERS.md"})
  void aGuideNamesWhatExists(String guide) {
    String text = BLOCK.matcher(SourceNames.text(SourceNames.ROOT.resolve(guide))).replaceAll("");
    List<String> missing = new ArrayList<>();
    long types = 0;
    for (String code : CODE.matcher(text).results().map(found -> found.group(1)).toList()) {
      if (TYPE.matcher(code).matches()) {
        types++;
      }
      if (!exists(code)) {
        missing.add(code);
      }
    }
    assertThat(missing).isEmpty();
    assertThat(types).isGreaterThanOrEqualTo(guide.equals("DEVELOPERS.md") ? 100 : 0);
  }

  @Test
  void theLayoutNamesEachPackageOnce() {
    Matcher layout =
        Pattern.compile("(?s)\n## Layout\n(.*?)\n## ").matcher(SourceNames.text(DEVELOPERS));
    assertThat(layout.find()).isTrue();
    List<String> named =
        PACKAGE
            .matcher(layout.group(1))
            .results()
            .map(found -> found.group(1) + "/" + found.group(2))
            .toList();
    List<String> packages = new ArrayList<>();
    for (String module : List.of("ingest", "processors", "api")) {
      Path root = SourceNames.ROOT.resolve(module + "/src/main/java/org/kornspur/" + module);
      SourceNames.filesBelow(root).stream()
          .map(file -> module + "/" + root.relativize(file.getParent()))
          .distinct()
          .forEach(packages::add);
    }
    assertThat(named).containsExactlyInAnyOrderElementsOf(packages);
  }

  /** A name that is gone would be found. */
  @Test
  void whatDoesNotExistIsFound() {
    assertThat(List.of("GateRule", "Gates.all()", "ingest/…/chain", "problems_de.properties"))
        .allMatch(GuidesTest::exists);
    assertThat(
            List.of(
                "GateRuleOfOld",
                "Gates.allOfOld()",
                "ingest/…/parchment",
                "problems_la.properties"))
        .noneMatch(GuidesTest::exists);
  }

  /** Everything that looks like a type, with a hump in its name, is one. */
  @Test
  void packageDocumentationNamesWhatExists() {
    Pattern humped = Pattern.compile("(?<![\\w\"/.<])([A-Z][a-z]+[A-Z]\\w*)(?![\\w<\"])");
    Map<String, Set<String>> ofOthers = Map.of("ground", Set.of("GeoJSON"));
    List<String> missing = new ArrayList<>();
    List<Path> all =
        Stream.of("ingest", "processors", "api")
            .flatMap(
                module ->
                    SourceNames.filesBelow(SourceNames.ROOT.resolve(module + "/src")).stream())
            .filter(file -> file.endsWith("package-info.java"))
            .toList();
    for (Path file : all) {
      Set<String> known =
          ofOthers.getOrDefault(file.getParent().getFileName().toString(), Set.of());
      humped
          .matcher(SourceNames.text(file))
          .results()
          .map(MatchResult::group)
          .filter(name -> !known.contains(name) && !NAMES.texts().containsKey(name))
          .forEach(name -> missing.add(file.getParent().getFileName() + ": " + name));
    }
    assertThat(all).hasSizeGreaterThan(30);
    assertThat(missing).isEmpty();
  }

  private static boolean exists(String code) {
    Matcher type = TYPE.matcher(code);
    if (type.matches()) {
      String member = type.group(2) == null ? "" : type.group(2);
      return OF_OTHERS.contains(type.group(1)) || NAMES.has(type.group(1), member);
    }
    Matcher named = PACKAGE.matcher(code);
    if (named.matches()) {
      return Stream.of("main/java", "main/resources", "test/java")
          .map(
              part ->
                  SourceNames.ROOT.resolve(
                      named.group(1)
                          + "/src/"
                          + part
                          + (part.endsWith("java") ? "/org/kornspur/" + named.group(1) + "/" : "/")
                          + named.group(2)))
          .anyMatch(Files::isDirectory);
    }
    if (FILE.matcher(code).matches()) {
      return code.contains("target/") // made by the build
          || Files.exists(SourceNames.ROOT.resolve(code))
          || NAMES.files().contains(Path.of(code).getFileName().toString());
    }
    if (FOLDER.matcher(code).matches()) {
      return Files.exists(SourceNames.ROOT.resolve(code))
          || NAMES.files().stream().anyMatch(file -> code.endsWith("/" + file))
          || isMadeAtRun(code);
    }
    return true;
  }

  /** Folders of addresses, of a build or of a running site. */
  private static boolean isMadeAtRun(String code) {
    return code.matches("(.*target/.*|kornspur-data/.*|templates/.*|text/.*|application/.*)");
  }
}
