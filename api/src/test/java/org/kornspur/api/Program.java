package org.kornspur.api;

import java.io.File;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;

/** A program that some tests need and that not every machine has. */
public enum Program {
  CHROMIUM(
      "the pages in a browser",
      "Install Chromium (Debian: apt-get install chromium-headless-shell)",
      // the browser without its window, where it is there: it takes less of the machine
      "chromium-headless-shell",
      "chromium",
      "chromium-browser",
      "google-chrome"),
  NPM(
      "the exports against GS1's schema, docker-compose.yml against the Compose Specification, and"
          + " the OpenAPI document by linters and a generated client",
      "Install Node.js 18 or later with npm (Debian: apt-get install nodejs npm)",
      "npm",
      "npm.cmd"),
  PROMTOOL(
      "the alert rules by Prometheus' own checker",
      "Install promtool (Debian: apt-get install prometheus)",
      "promtool"),
  C_COMPILER(
      "what happens when the clock of the machine is set back or its disk is full",
      "Install a C compiler with the headers of the C library (Debian: apt-get install gcc libc6-dev)",
      "gcc",
      "cc") {
    @Override
    public Optional<Path> find() {
      // the library that makes clock and disk fail is for the loader of Linux
      return Files.exists(Path.of("/usr/include/dlfcn.h")) ? super.find() : Optional.empty();
    }
  },
  CONTAINER_ENGINE(
      "the broker contract against the official image of the broker",
      "Install and start Docker",
      "docker"),
  EARLIER_RELEASE(
      "the state of the earlier release, taken over by this one",
      "Check out with the whole history, install git and mvn, and add -Dearlier.release=build",
      "mvn",
      "mvn.cmd") {
    @Override
    public Optional<Path> find() {
      // it builds a whole release, which takes minutes: by its own wish only
      boolean isAskedFor = "build".equals(System.getProperty("earlier.release"));
      return isAskedFor && EarlierRelease.areInHistory() ? super.find() : Optional.empty();
    }
  };

  private final String what;
  private final String remedy;
  private final List<String> names;

  Program(String what, String remedy, String... names) {
    this.what = what;
    this.remedy = remedy;
    this.names = List.of(names);
  }

  /** Where it is; empty where no folder of PATH has it. */
  public Optional<Path> find() {
    List<Path> folders =
        Arrays.stream(System.getenv().getOrDefault("PATH", "").split(File.pathSeparator, -1))
            .filter(folder -> !folder.isEmpty())
            .map(Path::of)
            .toList();
    return names.stream()
        .flatMap(name -> folders.stream().map(folder -> folder.resolve(name)))
        .filter(Files::isExecutable)
        .findFirst();
  }

  /** What is not tested without it, and what to install, in one line. */
  String notRun() {
    return "NOT RUN: " + what + ". " + remedy + " and run mvn verify again.";
  }
}
