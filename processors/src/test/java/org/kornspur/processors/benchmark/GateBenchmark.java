package org.kornspur.processors.benchmark;

import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.gates.GateRule;
import org.kornspur.processors.gates.Gates;
import org.kornspur.processors.judging.Judge;
import org.kornspur.processors.judging.Outcome;
import org.kornspur.processors.standards.Limit;
import org.kornspur.processors.standards.Rulebook;
import org.kornspur.processors.standards.Rulebooks;
import org.kornspur.processors.stream.StateStores;
import org.kornspur.processors.verdict.Measured;
import org.kornspur.processors.verdict.Verdict;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Param;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;

/**
 * How many dossiers a second a gate judges, and how many the whole judge does, over the dossiers of
 * the invented enterprise as the topology left them. Beside each, what a spreadsheet does with the
 * same dossiers: hold each number that the gate arrived at against its limit, with no counting, no
 * confidence limit, no search for the text in force and no sentence. Components and Origin hold no
 * number against a limit: beside them the spreadsheet does nothing.
 *
 * <p>Run from the root of the project; {@code -f 0} reads the enterprise once instead of once for
 * each line:
 *
 * <pre>{@code
 * mvn -q -pl ingest,processors test-compile dependency:build-classpath -Dmdep.outputFile=target/benchmark.cp
 * java -cp "processors/target/test-classes:processors/target/classes:$(cat processors/target/benchmark.cp)" \
 *     org.openjdk.jmh.Main GateBenchmark
 * }</pre>
 */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.Throughput)
@OutputTimeUnit(TimeUnit.SECONDS)
@Warmup(iterations = 2, time = 1)
@Measurement(iterations = 3, time = 1)
@Fork(1)
public class GateBenchmark {
  private static final String WHOLE_CROP = "whole judge, crop";
  private static final String WHOLE_LOT = "whole judge, lot";

  /** A gate by the name of its class, or the whole judge for crops or lots. */
  @Param({
    "Isolation",
    "OffTypes",
    "SheddingFemales",
    "FemaleSterility",
    "OtherPlants",
    "FieldInspections",
    "Components",
    "Origin",
    "BlendShare",
    "MassBalance",
    "PostControl",
    "PostControlOfBasicSeed",
    "Germination",
    "AnalyticalPurity",
    "OtherSeeds",
    "Ergot",
    "Moisture",
    "LotSize",
    "SampleDrawing",
    WHOLE_CROP,
    WHOLE_LOT
  })
  public String judged;

  private Judge judge;
  private GateRule gate;
  private Case[] cases;
  private int next;

  /** A dossier, the rulebook that it names, and the numbers that a spreadsheet would compare. */
  private record Case(Dossier dossier, Rulebook rulebook, List<Comparison> comparisons) {}

  private record Comparison(double value, Limit.Sense sense, double limit) {
    boolean holds() {
      return switch (sense) {
        case AT_MOST -> value <= limit;
        case AT_LEAST -> value >= limit;
      };
    }
  }

  /** The enterprise, judged once for all lines of a run in one process. */
  private static final class Enterprise {
    static final List<Dossier> DOSSIERS = read();

    private static List<Dossier> read() {
      try (DrivenDossiers topology = new DrivenDossiers(StateStores.inMemory())) {
        DemoFacts.once().forEach(topology::accept);
        return topology.dossiers();
      }
    }
  }

  @Setup
  public void chooseCases() {
    judge = Judge.by(Rulebooks.bundled());
    gate = gateNamed(judged);
    cases =
        Enterprise.DOSSIERS.stream()
            .filter(this::isWanted)
            .flatMap(this::caseOf)
            .toArray(Case[]::new);
    if (cases.length == 0) {
      throw new IllegalStateException("No dossier of the invented enterprise is for " + judged);
    }
  }

  @Benchmark
  public List<Verdict> gate() {
    Case here = nextCase();
    return gate.judge(here.dossier(), here.rulebook());
  }

  @Benchmark
  public int bareComparison() {
    int held = 0;
    for (Comparison comparison : nextCase().comparisons()) {
      held += comparison.holds() ? 1 : 0;
    }
    return held;
  }

  private GateRule gateNamed(String name) {
    if (name.equals(WHOLE_CROP) || name.equals(WHOLE_LOT)) {
      return (dossier, rulebook) -> verdictsOf(judge.judge(dossier));
    }
    return Gates.all().stream()
        .filter(rule -> rule.getClass().getSimpleName().equals(name))
        .findFirst()
        .orElseThrow(() -> new IllegalArgumentException("There is no gate " + name));
  }

  private boolean isWanted(Dossier dossier) {
    return switch (judged) {
      case WHOLE_CROP -> dossier.subject().kind() == Subject.Kind.CROP;
      case WHOLE_LOT -> dossier.subject().kind() == Subject.Kind.LOT;
      default -> true;
    };
  }

  private Stream<Case> caseOf(Dossier dossier) {
    return dossier
        .material()
        .flatMap(material -> Rulebooks.bundled().find(material.rulebookId()))
        .stream()
        .flatMap(rulebook -> caseOf(dossier, rulebook));
  }

  private Stream<Case> caseOf(Dossier dossier, Rulebook rulebook) {
    List<Verdict> verdicts = gate.judge(dossier, rulebook);
    return verdicts.isEmpty()
        ? Stream.empty()
        : Stream.of(new Case(dossier, rulebook, comparisons(verdicts)));
  }

  private static List<Verdict> verdictsOf(Outcome outcome) {
    return outcome.standing().orElseThrow().verdicts();
  }

  private static List<Comparison> comparisons(List<Verdict> verdicts) {
    return verdicts.stream().flatMap(GateBenchmark::comparison).toList();
  }

  private static Stream<Comparison> comparison(Verdict verdict) {
    return measured(verdict)
        .flatMap(
            measured ->
                verdict.limit().stream()
                    .map(limit -> new Comparison(measured.value(), limit.sense(), limit.value())));
  }

  private static Stream<Measured> measured(Verdict verdict) {
    if (verdict instanceof Verdict.Met met) {
      return Stream.of(met.measured());
    }
    if (verdict instanceof Verdict.NotMet notMet) {
      return Stream.of(notMet.measured());
    }
    return Stream.empty();
  }

  private Case nextCase() {
    next = (next + 1) % cases.length;
    return cases[next];
  }
}
