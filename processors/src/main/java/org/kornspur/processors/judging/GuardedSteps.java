package org.kornspur.processors.judging;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import java.util.function.Supplier;
import java.util.stream.DoubleStream;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.finding.Aspect;
import org.kornspur.processors.finding.Fault;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.processors.verdict.Measured;
import org.kornspur.processors.verdict.Verdict;

/**
 * Does the parts of the judging so that one which breaks hides no other and stops nothing: it
 * becomes a {@link Fault}, and evidence is owed. That holds for every fact that ever lies in a
 * dossier, whatever the intake let through when it came.
 */
final class GuardedSteps {
  private final Dossier dossier;
  private final List<Fault> faults = new ArrayList<>();

  GuardedSteps(Dossier dossier) {
    this.dossier = dossier;
  }

  /** Faults so far, in the order in which they came about. */
  List<Fault> faults() {
    return List.copyOf(faults);
  }

  /**
   * Does one part.
   *
   * @param gate gate that owes evidence where it breaks
   * @param part name of the part
   * @param otherwise what stands in its place then
   */
  <T> T get(Gate gate, String part, Function<Dossier, T> work, Supplier<T> otherwise) {
    try {
      return work.apply(dossier);
    } catch (RuntimeException | StackOverflowError broken) {
      faults.add(
          new Fault(
              gate,
              part,
              Optional.of(new Aspect.Judging(part).coded()),
              SuspectFacts.of(dossier, work).factIds(),
              broken));
      return otherwise.get();
    }
  }

  /**
   * Verdicts of one gate. Where it breaks, what it says of the rest of the evidence is kept as far
   * as it speaks against the seed: a fact that cannot be judged makes no other good.
   */
  List<Verdict> verdicts(Gate gate, Function<Dossier, List<Verdict>> rule) {
    try {
      return rule.apply(dossier).stream().flatMap(verdict -> finite(verdict).stream()).toList();
    } catch (RuntimeException | StackOverflowError broken) {
      SuspectFacts<List<Verdict>> suspects = SuspectFacts.of(dossier, rule);
      faults.add(new Fault(gate, "", Optional.empty(), suspects.factIds(), broken));
      Map<String, Verdict> against = new LinkedHashMap<>();
      suspects.left().stream()
          .flatMap(List::stream)
          .filter(verdict -> verdict instanceof Verdict.NotMet && isFinite(verdict))
          .forEach(verdict -> against.putIfAbsent(verdict.gate() + verdict.aspect(), verdict));
      return List.copyOf(against.values());
    }
  }

  private Optional<Verdict> finite(Verdict verdict) {
    if (isFinite(verdict)) {
      return Optional.of(verdict);
    }
    faults.add(
        new Fault(
            verdict.gate(),
            verdict.aspect(),
            verdict.about(),
            verdict.factIds(),
            new IllegalStateException("The value or its margin is no finite number")));
    return Optional.empty();
  }

  private static boolean isFinite(Verdict verdict) {
    if (verdict instanceof Verdict.Met met) {
      return isFinite(met.measured());
    } else if (verdict instanceof Verdict.NotMet notMet) {
      return isFinite(notMet.measured());
    }
    return true;
  }

  private static boolean isFinite(Measured measured) {
    DoubleStream ends =
        measured.interval().stream()
            .flatMapToDouble(interval -> DoubleStream.of(interval.lower(), interval.upper()));
    return DoubleStream.concat(DoubleStream.of(measured.value(), measured.margin()), ends)
        .allMatch(Double::isFinite);
  }
}
