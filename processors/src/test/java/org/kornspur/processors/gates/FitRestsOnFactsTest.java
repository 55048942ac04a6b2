package org.kornspur.processors.gates;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.kornspur.contract.Category;
import org.kornspur.contract.CropRole;
import org.kornspur.contract.InspectedPart;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.dossier.Report;
import org.kornspur.processors.fixture.Dossiers;
import org.kornspur.processors.fixture.Draft;
import org.kornspur.processors.fixture.Facts;
import org.kornspur.processors.judging.Judge;
import org.kornspur.processors.judging.Standing;
import org.kornspur.processors.standards.Quantity;
import org.kornspur.processors.standards.Rulebook;
import org.kornspur.processors.standards.Rulebooks;
import org.kornspur.processors.verdict.Fitness;
import org.kornspur.processors.verdict.Verdict;

/**
 * Of a fit crop or lot every subset of its facts is judged: it is fit only where each gate that the
 * book asks for is met by facts that are there. Our own rule, no source.
 */
class FitRestsOnFactsTest {
  private static final Judge JUDGE = Judge.by(Rulebooks.bundled());

  private record Fit(String name, String book, Dossier dossier) {
    @Override
    public String toString() {
      return name + " under " + book;
    }
  }

  static Stream<Fit> fit() {
    return Stream.of("EU", "DE", "HOUSE", "US")
        .flatMap(
            book ->
                Stream.of(
                    new Fit("certified lot", book, lot(book, Category.CERTIFIED, Facts.HYBRID)),
                    new Fit("basic lot", book, lot(book, Category.BASIC, Facts.SINGLE_CROSS)),
                    new Fit("pre-basic lot", book, lot(book, Category.PRE_BASIC, "A1")),
                    new Fit("female", book, crop(book, CropRole.STERILE_FEMALE)),
                    new Fit("pollinator", book, crop(book, CropRole.POLLINATOR)),
                    new Fit("F1 crop", book, crop(book, CropRole.F1_MIXTURE))));
  }

  @ParameterizedTest
  @MethodSource("fit")
  void noSubsetOfTheFactsIsFitWithoutThoseThatTheBookAsksFor(Fit fit) {
    assertThat(standing(fit.dossier()).state()).isEqualTo(Fitness.FIT);
    List<String> all = factIds(fit.dossier()).stream().sorted().toList();
    assertThat(all).hasSizeLessThan(11);

    IntStream.range(0, 1 << all.size())
        .forEach(
            chosen -> {
              Dossier subset =
                  fit.dossier()
                      .of(entry -> (chosen & 1 << all.indexOf(entry.header().getFactId())) != 0);
              JUDGE
                  .judge(subset)
                  .standing()
                  .filter(standing -> standing.state() == Fitness.FIT)
                  .ifPresent(standing -> restsOnFacts(fit, subset, standing));
            });
  }

  private static void restsOnFacts(Fit fit, Dossier subset, Standing standing) {
    Rulebook book = Rulebooks.bundled().find(fit.book()).orElseThrow();
    Set<String> there = new TreeSet<>(factIds(subset));
    there.addAll(reported(subset));
    List<Demand> demands =
        Stream.concat(
                SeedCrop.of(subset, book).stream()
                    .flatMap(crop -> Demands.of(crop).stream().filter(d -> asks(crop, d))),
                SeedLot.of(subset, book).stream()
                    .flatMap(lot -> Demands.of(lot).stream().filter(d -> asks(lot, d))))
            .toList();
    assertThat(demands).isNotEmpty();
    for (Demand demand : demands) {
      assertThat(standing.verdicts())
          .as("%s of %s with %s", demand, fit, there)
          .anyMatch(
              verdict ->
                  verdict instanceof Verdict.Met
                      && verdict.gate() == demand.gate()
                      && verdict.factIds().stream().anyMatch(factIds(subset)::contains)
                      && there.containsAll(verdict.factIds()));
    }
  }

  private static boolean asks(SeedCrop crop, Demand demand) {
    return demand.anyOf().stream().anyMatch(quantity -> crop.limit(quantity).isPresent());
  }

  private static boolean asks(SeedLot lot, Demand demand) {
    return demand.anyOf().stream()
        .filter(quantity -> quantity != Quantity.POST_CONTROL_PRODUCER_RISK)
        .anyMatch(quantity -> lot.limit(quantity).isPresent());
  }

  private static Standing standing(Dossier dossier) {
    return JUDGE.judge(dossier).standing().orElseThrow();
  }

  /** Facts of the neighbours, which are in other dossiers. */
  private static Set<String> reported(Dossier dossier) {
    return dossier.neighbourReports().stream()
        .map(Report.Neighbour::factId)
        .collect(Collectors.toSet());
  }

  private static Set<String> factIds(Dossier dossier) {
    return dossier
        .counting()
        .map(fact -> FactType.headerOf(fact).getFactId())
        .collect(Collectors.toSet());
  }

  private static Dossier lot(String book, Category category, String seed) {
    return Dossiers.lot("l1")
        .with(
            Facts.declared("l1", seed, category, 1000).with(lot -> lot.setRulebookId(book)),
            Facts.sampling("l1", 40, 1000, 40),
            Facts.germination("l1", 95, 94, 96, 95),
            Facts.purity("l1", 119.4, 0.5, 0.1),
            Facts.moisture("l1", 13),
            Facts.otherSeeds("l1"),
            Facts.dispatch("l1", 500))
        .scheme()
        .dossier();
  }

  private static Dossier crop(String book, CropRole role) {
    Draft<?> declared =
        Facts.crop("c1", role)
            .with(
                crop ->
                    crop.setRulebookId(book)
                        .setFloweringFrom(LocalDate.of(2024, 5, 25))
                        .setFloweringTo(LocalDate.of(2024, 6, 25)));
    Dossiers crop =
        Dossiers.crop("c1")
            .with(declared)
            .with(visit(1, role).offTypesAmong(0, 9000))
            .with(visit(2, role).offTypesAmong(0, 9000))
            .with(visit(3, role).offTypesAmong(0, 9000))
            .with(Facts.sterility("c1", 2000, 0).at("2024-06-05"))
            .scheme()
            .neighbour(2000);
    return switch (role) {
      case STERILE_FEMALE ->
          crop.with(Facts.sowing("c1").of("f1", 90).of("p1", 10), pollen(1), pollen(2))
              .parent("f1", Dossiers.component(Facts.STERILE_LINE, Category.PRE_BASIC))
              .parent("p1", Dossiers.component(Facts.FERTILE_LINE, Category.PRE_BASIC))
              .dossier();
      case F1_MIXTURE ->
          crop.with(Facts.sowing("c1").of("m1", 100)).parent("m1", Dossiers.mixture()).dossier();
      case MAINTAINER, POLLINATOR, FERTILE_LINE ->
          crop.with(Facts.sowing("c1").of("p1", 100))
              .parent("p1", Dossiers.component(Facts.RESTORER, Category.PRE_BASIC))
              .dossier();
    };
  }

  private static Facts.InspectionDraft pollen(int number) {
    return Facts.inspection("c1")
        .visit(number)
        .at("2024-06-0" + number)
        .of(InspectedPart.POLLEN_PARENT)
        .offTypesInArea(0, 150);
  }

  private static Facts.InspectionDraft visit(int number, CropRole role) {
    InspectedPart part =
        role == CropRole.STERILE_FEMALE || role == CropRole.F1_MIXTURE
            ? InspectedPart.FEMALE
            : InspectedPart.WHOLE_CROP;
    return Facts.inspection("c1")
        .visit(number)
        .at("2024-06-0" + number)
        .of(part)
        .offTypesInArea(0, 450)
        .sheddingAmong(0, 3000)
        .with(
            count ->
                count
                    .setOtherCerealPlants(0)
                    .setHardToSeparatePlants(0)
                    .setWildOatPlants(0)
                    .setSmutPlants(0));
  }
}
