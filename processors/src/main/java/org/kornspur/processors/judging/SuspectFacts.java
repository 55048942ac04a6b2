package org.kornspur.processors.judging;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Stream;
import org.kornspur.ingest.intake.FieldLimits;
import org.kornspur.processors.balance.MassFlow;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.dossier.Entry;
import org.kornspur.processors.dossier.Report;
import org.kornspur.processors.dossier.SeedMeasures;

/**
 * Finds out on which facts a fault rests: those without which the same dossier can be judged. Each
 * fact and each report is left out in turn, so it is a function of the dossier like everything
 * else.
 *
 * @param factIds facts that are suspected, those beyond the limits of the contract alone where
 *     there are such; all of the dossier where no single one is to blame
 * @param left what came out without a suspect that only bears evidence: neither what the seed is
 *     nor its mass hang on it
 */
record SuspectFacts<T>(List<String> factIds, List<T> left) {
  /** Beyond this a dossier is not tried fact by fact, and all its facts are suspected. */
  private static final int MOST_TRIED = 200;

  private static final int MOST_NAMED = 20;

  static <T> SuspectFacts<T> of(Dossier dossier, Function<Dossier, T> work) {
    List<Entry> counting = dossier.entries().stream().filter(Entry::counts).toList();
    List<Report> reports = dossier.reports();
    List<String> blamed = new ArrayList<>();
    List<String> beyondLimits = new ArrayList<>();
    List<T> left = new ArrayList<>();
    if (counting.size() + reports.size() <= MOST_TRIED) {
      for (Entry suspect : counting) {
        String factId = suspect.header().getFactId();
        Dossier without = dossier.of(entry -> !entry.header().getFactId().equals(factId));
        attempt(without, work)
            .ifPresent(
                result -> {
                  blamed.add(factId);
                  if (!FieldLimits.beyond(suspect.fact()).isEmpty()) {
                    beyondLimits.add(factId);
                  }
                  if (without.material().equals(dossier.material())
                      && MassFlow.of(suspect.fact()).isEmpty()) {
                    left.add(result);
                  }
                });
      }
      for (Report suspect : reports) {
        Dossier without =
            new Dossier(
                dossier.subject(),
                dossier.entries(),
                reports.stream()
                    .filter(report -> !report.sender().equals(suspect.sender()))
                    .toList());
        attempt(without, work).ifPresent(result -> blamed.addAll(factIds(suspect)));
      }
    }
    List<String> found = beyondLimits.isEmpty() ? blamed : beyondLimits;
    Stream<String> named =
        found.isEmpty()
            ? counting.stream().map(entry -> entry.header().getFactId())
            : found.stream();
    return new SuspectFacts<>(named.distinct().sorted().limit(MOST_NAMED).toList(), left);
  }

  private static <T> Optional<T> attempt(Dossier without, Function<Dossier, T> work) {
    try {
      return Optional.of(work.apply(without));
    } catch (RuntimeException | StackOverflowError stillBroken) {
      return Optional.empty();
    }
  }

  private static List<String> factIds(Report report) {
    if (report instanceof Report.FromParent parent) {
      return Stream.of(
              parent.measures().thousandKernelWeightG(), parent.measures().germinationPercent())
          .flatMap(Optional::stream)
          .flatMap(SeedMeasures.Mean::factIds)
          .toList();
    } else if (report instanceof Report.FromHybrid hybrid) {
      return hybrid.schemes().stream().map(Report.Scheme::factId).toList();
    } else if (report instanceof Report.FromGround ground) {
      return Stream.of(
              ground.neighbours().stream().map(Report.Neighbour::factId),
              ground.earlier().stream().map(Report.EarlierRye::factId),
              ground.sameGround().stream().map(Report.OnSameGround::factId))
          .flatMap(ids -> ids)
          .toList();
    }
    if (report instanceof Report.FromPart part) {
      return part.failures().stream().flatMap(failure -> failure.factIds().stream()).toList();
    }
    if (report instanceof Report.FromLaboratory || report instanceof Report.AsksLaboratory) {
      return List.of();
    }
    throw new IllegalStateException("A report that is not known: " + report);
  }
}
