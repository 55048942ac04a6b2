package org.kornspur.api.guides;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Pattern;
import java.util.stream.Stream;

/**
 * What the source code of the three modules holds, tests too.
 *
 * @param texts source text by simple name of each type, nested ones and those of the contract too
 * @param packages the last part of each package's name
 * @param files names of all other files of the source folders
 */
record SourceNames(Map<String, String> texts, Set<String> packages, Set<String> files) {
  static final Path ROOT = Path.of("..").toAbsolutePath().normalize();
  private static final List<String> MODULES = List.of("ingest", "processors", "api");
  private static final Pattern TYPE =
      Pattern.compile("\\b(?:class|interface|record|enum|@interface|error|protocol)\\s+(\\w+)");

  static SourceNames read() {
    Map<String, String> texts = new HashMap<>();
    Set<String> packages = new TreeSet<>();
    Set<String> files = new TreeSet<>();
    for (String module : MODULES) {
      for (Path file : filesBelow(ROOT.resolve(module).resolve("src"))) {
        String name = file.getFileName().toString();
        files.add(name);
        if (name.endsWith(".java") || name.endsWith(".avdl")) {
          packages.add(file.getParent().getFileName().toString());
          String text = text(file);
          TYPE.matcher(text)
              .results()
              .forEach(type -> texts.merge(type.group(1), text, String::concat));
        }
      }
    }
    return new SourceNames(texts, packages, files);
  }

  /** Whether there is a type of this name with this member, or any where none is named. */
  boolean has(String type, String member) {
    return texts.containsKey(type)
        && Pattern.compile("\\b" + Pattern.quote(member)).matcher(texts.get(type)).find();
  }

  static List<Path> filesBelow(Path folder) {
    try (Stream<Path> files = Files.walk(folder)) {
      return files.filter(Files::isRegularFile).toList();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  static String text(Path file) {
    try {
      return Files.readString(file);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
