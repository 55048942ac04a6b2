package org.kornspur.api.operations;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.regex.MatchResult;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.StreamSupport;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.kornspur.api.DemoMachine;
import org.kornspur.api.NeedsProgram;
import org.kornspur.api.Program;
import org.kornspur.api.security.Role;
import org.kornspur.api.security.login.Asking;
import org.kornspur.api.security.people.TestPeople;
import org.kornspur.api.web.DemoLoaded;

/** Alert rules and dashboard name only metrics that the running program has. */
@ExtendWith(DemoMachine.class)
class WatchingFilesIT {
  private static final Path DASHBOARD = Path.of("..", ".operations", "dashboard.json");

  /** A metric with what it asks of its labels; functions have no underscore and a bracket. */
  private static final Pattern METRIC =
      Pattern.compile("\\b([a-z]+(?:_[a-z0-9]+)+)\\b(?!\\()(?:\\{([^}]*)})?");

  private static final Pattern LABEL = Pattern.compile("([a-z_]+)=\"([^\"]*)\"");

  /** Made by Prometheus itself of each job that it asks. */
  private static final String OF_PROMETHEUS = "up{job=\"kornspur\"} == 0";

  @Test
  void everyMetricInThemIsThere() throws Exception {
    DemoLoaded.await();
    Map<String, Set<String>> served = served();
    for (String expression : expressions()) {
      List<MatchResult> metrics = METRIC.matcher(expression).results().toList();
      assertThat(metrics).as(expression).isNotEmpty();
      for (MatchResult metric : metrics) {
        assertThat(served).as(expression).containsKey(metric.group(1));
        if (metric.group(2) != null && !metric.group(1).startsWith("http_")) {
          assertThat(served.get(metric.group(1)))
              .as(expression)
              .anyMatch(labels -> labels.contains(metric.group(2)));
        }
      }
    }
  }

  /** Labels by which they divide are labels of a metric in the same expression. */
  @Test
  void everyLabelInThemIsThere() throws Exception {
    DemoLoaded.await();
    Map<String, Set<String>> served = served();
    for (String expression : expressions()) {
      Set<String> known = new TreeSet<>(Set.of("instance"));
      METRIC
          .matcher(expression)
          .results()
          .flatMap(metric -> served.getOrDefault(metric.group(1), Set.of()).stream())
          .flatMap(labels -> LABEL.matcher(labels).results())
          .forEach(label -> known.add(label.group(1)));
      Matcher by = Pattern.compile("(?:by|on) ?\\(([^)]*)\\)").matcher(expression);
      while (by.find()) {
        assertThat(List.of(by.group(1).split(", ?"))).as(expression).isSubsetOf(known);
      }
    }
  }

  /** Oracle: Prometheus' own checker. */
  @Test
  @NeedsProgram(Program.PROMTOOL)
  void prometheusReadsTheRules() throws Exception {
    Process check =
        new ProcessBuilder(
                Program.PROMTOOL.find().orElseThrow().toString(),
                "check",
                "rules",
                AlertRules.FILE.toString())
            .redirectErrorStream(true)
            .start();
    String said = new String(check.getInputStream().readAllBytes());
    assertThat(check.waitFor()).as(said).isZero();
    assertThat(said).contains(AlertRules.read().all().size() + " rules found");
  }

  private static Set<String> expressions() throws Exception {
    Set<String> found = new TreeSet<>();
    AlertRules.read().all().forEach(rule -> found.add(rule.path("expr").asText()));
    JsonNode dashboard = new ObjectMapper().readTree(DASHBOARD.toFile());
    assertThat(dashboard.path("panels")).hasSizeGreaterThan(10);
    for (JsonNode panel : dashboard.path("panels")) {
      assertThat(panel.path("title").asText()).isNotBlank();
      StreamSupport.stream(panel.path("targets").spliterator(), false)
          .forEach(target -> found.add(target.path("expr").asText()));
    }
    assertThat(found.remove(OF_PROMETHEUS)).isTrue();
    assertThat(found).hasSizeGreaterThan(25);
    return found;
  }

  /** The labels of each metric, by its name. */
  private static Map<String, Set<String>> served() throws Exception {
    Asking.Answer answer =
        new Asking(DemoMachine.root()).get(TestPeople.of(Role.MONITOR), "/metrics");
    assertThat(answer.status()).isEqualTo(200);
    Map<String, Set<String>> served = new TreeMap<>();
    answer
        .body()
        .lines()
        .filter(line -> !line.startsWith("#"))
        .forEach(
            line -> {
              int end = line.indexOf('{') < 0 ? line.indexOf(' ') : line.indexOf('{');
              served
                  .computeIfAbsent(line.substring(0, end), name -> new TreeSet<>())
                  .add(line.substring(end));
            });
    return served;
  }
}
