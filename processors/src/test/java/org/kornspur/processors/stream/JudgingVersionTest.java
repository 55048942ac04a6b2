package org.kornspur.processors.stream;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.kornspur.ingest.contract.Fingerprint;
import org.kornspur.processors.judging.JudgingVersion;
import org.kornspur.processors.standards.Rulebooks;
import org.kornspur.standing.GateVerdict;
import org.kornspur.standing.InheritedTrouble;
import org.kornspur.standing.LotStanding;
import org.kornspur.standing.VerdictValue;

/**
 * A program that judges otherwise must say so, or running sites keep standings that it would not
 * give. The file {@code judging-versions.txt} has a line for each version of the judging: its
 * number, the rulebooks it was taken with, and a hash over all that the demo comes to under them:
 * states, values, limits and facts, but no sentence. Numbers are rounded to six digits, so that no
 * platform differs.
 */
@Tag("slow")
class JudgingVersionTest {
  private static final Path NOW = Path.of("target", "checks", "judging-version.txt");

  @Test
  void aJudgingThatGivesOtherVerdictsHasAVersionOfItsOwn() throws IOException {
    String now = JudgingVersion.CURRENT + " " + rulebooks() + " " + hashOfDemo();
    Files.createDirectories(NOW.getParent());
    Files.writeString(NOW, now + "\n");

    List<String> versions = versions();

    assertThat(versions.get(versions.size() - 1))
        .as(
            "Verdicts of the demo changed. If only rulebooks or the demo did, put the line of %s in"
                + " place of the last one; if the program judges otherwise, raise"
                + " JudgingVersion.CURRENT, run this again, and add the line below it",
            NOW)
        .isEqualTo(now);
  }

  @Test
  void theVersionsAreNumberedWithoutAGapAndTheLastIsThePresentOne() throws IOException {
    List<Integer> numbers =
        versions().stream().map(line -> Integer.valueOf(line.split(" ")[0])).toList();

    assertThat(numbers)
        .isEqualTo(Stream.iterate(1, number -> number + 1).limit(JudgingVersion.CURRENT).toList());
  }

  private static String rulebooks() {
    return Rulebooks.bundled().digest().substring(0, 16);
  }

  private static String hashOfDemo() throws IOException {
    List<String> lines = new ArrayList<>();
    new TreeMap<>(JudgedDemo.standings())
        .values()
        .forEach(standing -> lines.addAll(lines(standing)));
    assertThat(lines).hasSizeGreaterThan(5_000);
    Files.createDirectories(NOW.getParent());
    Files.write(NOW.resolveSibling("judging-version-values.txt"), lines);
    return Fingerprint.of(String.join("\n", lines).getBytes(StandardCharsets.UTF_8));
  }

  private static List<String> lines(LotStanding standing) {
    List<String> lines = new ArrayList<>();
    lines.add(standing.getSubject() + " " + standing.getState() + " " + standing.getMaterial());
    for (GateVerdict verdict : standing.getVerdicts()) {
      lines.add(
          String.join(
              " ",
              verdict.getGate(),
              verdict.getAspect(),
              verdict.getState().name(),
              measured(verdict.getMeasured()),
              verdict.getLimit() == null ? "-" : number(verdict.getLimit().getValue()),
              String.join(",", verdict.getFactIds())));
    }
    for (InheritedTrouble trouble : standing.getInherited()) {
      lines.add(
          String.join(
              " ",
              trouble.getGate(),
              trouble.getAspect(),
              trouble.getWeight(),
              String.join(">", trouble.getPath()),
              String.join(",", trouble.getFactIds())));
    }
    return lines;
  }

  private static String measured(VerdictValue value) {
    if (value == null) {
      return "-";
    }
    String interval =
        value.getInterval() == null
            ? "-"
            : number(value.getInterval().getLower())
                + ".."
                + number(value.getInterval().getUpper());
    return number(value.getValue()) + value.getUnit() + " " + interval;
  }

  private static String number(double number) {
    return String.format(Locale.ROOT, "%.5e", number);
  }

  private static List<String> versions() throws IOException {
    try (InputStream file = JudgingVersionTest.class.getResourceAsStream("judging-versions.txt")) {
      return new String(file.readAllBytes(), StandardCharsets.UTF_8).lines().toList();
    }
  }
}
