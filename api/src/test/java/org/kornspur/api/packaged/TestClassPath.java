package org.kornspur.api.packaged;

import java.io.File;
import java.nio.file.Path;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/** The class path of this test run, for a process that is started elsewhere. */
final class TestClassPath {

  private TestClassPath() {}

  static String absolute() {
    String own =
        System.getProperty("surefire.test.class.path", System.getProperty("java.class.path"));
    return Stream.of(own.split(File.pathSeparator, -1))
        .map(entry -> Path.of(entry).toAbsolutePath().toString())
        .collect(Collectors.joining(File.pathSeparator));
  }
}
