package org.kornspur.processors.gates;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.TestFactory;
import org.kornspur.contract.Category;
import org.kornspur.contract.CropRole;
import org.kornspur.ingest.statement.Value;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.dossier.Material;
import org.kornspur.processors.fixture.CheckTable;
import org.kornspur.processors.fixture.Dossiers;
import org.kornspur.processors.fixture.Facts;
import org.kornspur.processors.judging.Judge;
import org.kornspur.processors.judging.Standing;
import org.kornspur.processors.standards.CropCategories;
import org.kornspur.processors.standards.Limit;
import org.kornspur.processors.standards.NothingAsked;
import org.kornspur.processors.standards.Quantity;
import org.kornspur.processors.standards.Rulebook;
import org.kornspur.processors.standards.RulebookAnswer;
import org.kornspur.processors.standards.Rulebooks;
import org.kornspur.processors.standards.Rye;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.processors.verdict.Verdict;

/**
 * The whole product: for every rulebook, category, role of a crop or kind of seed, and gate there
 * is a limit, or the book says that it asks for nothing, or evidence is owed. The table of it is in
 * {@code target/checks/rules.md}.
 */
class EveryRuleAnsweredTest {
  private static final Judge JUDGE = Judge.by(Rulebooks.bundled());
  private static final CheckTable TABLE =
      new CheckTable("rules.md", "book", "seed", "gate", "asks for", "source");

  @TestFactory
  Stream<DynamicTest> ofCrops() {
    return product(CropRole.values())
        .map(
            cell ->
                DynamicTest.dynamicTest(
                    cell.toString(),
                    () -> {
                      Dossier dossier = crop(cell);
                      SeedCrop crop = SeedCrop.of(dossier, cell.book()).orElseThrow();
                      boolean possible = CropCategories.of(cell.role()).contains(cell.category());
                      check(cell, dossier, RequiredLimits.of(crop), crop::answer, possible);
                      if (possible) {
                        checkTable(
                            RequiredLimits.of(crop),
                            crop::answer,
                            RuleTable.ofCrop(cell.book(), cell.role(), crop.on()),
                            RuleTable.categories(cell.role()).indexOf(cell.category()));
                      }
                    }));
  }

  @TestFactory
  Stream<DynamicTest> ofSeed() {
    return product(Material.Kind.values())
        .map(
            cell ->
                DynamicTest.dynamicTest(
                    cell.toString(),
                    () -> {
                      Dossier dossier = lot(cell);
                      SeedLot lot = SeedLot.of(dossier, cell.book()).orElseThrow();
                      // the category says whether both components are in it or their harvest, and
                      // what is of a higher one goes into a mixture as basic seed
                      Material.Kind kind = lot.material().kind();
                      Category category = lot.material().category();
                      boolean possible = ImpossibleCategory.isPossible(kind, category);
                      check(cell, dossier, RequiredLimits.of(lot), lot::answer, possible);
                      if (possible) {
                        checkTable(
                            // hybrid seed is sold and not mixed, though this dossier has it so
                            RequiredLimits.of(lot).stream()
                                .filter(
                                    demand ->
                                        kind != Material.Kind.F1_SEED
                                            || demand.gate() != Gate.POST_CONTROL_OF_BASIC_SEED)
                                .toList(),
                            lot::answer,
                            RuleTable.ofSeed(cell.book(), kind, lot.on()),
                            RuleTable.categories(kind).indexOf(category));
                      }
                    }));
  }

  /** Certified seed with open-pollinated rye in it, and that rye itself. */
  @TestFactory
  Stream<DynamicTest> ofRyeOtherThanHybrid() {
    return product(new Rye[] {Rye.HYBRID_WITH_ADMIXTURE, Rye.OTHER})
        .filter(cell -> cell.category() == Category.CERTIFIED)
        .map(
            cell ->
                DynamicTest.dynamicTest(
                    cell.toString(),
                    () -> {
                      Dossier dossier = admixed(cell);
                      SeedLot lot = SeedLot.of(dossier, cell.book()).orElseThrow();
                      assertThat(lot.rye()).isEqualTo(cell.role());
                      check(cell, dossier, RequiredLimits.of(lot), lot::answer, true);
                    }));
  }

  private static Dossier admixed(Cell<Rye> cell) {
    boolean isOther = cell.role() == Rye.OTHER;
    String lotId = isOther ? "op" : "q";
    Dossiers lot =
        Dossiers.lot(lotId)
            .with(
                Facts.admixture("q").hybrid("l1", 900).openPollinated("op", 90),
                Facts.postControl(lotId, 2000, 0)
                    .with(result -> result.setSheddingPlants(0).setNonHybridPlants(0)))
            .scheme();
    return isOther
        ? lot.with(
                Facts.declared("op", "OP1", Category.CERTIFIED, 1000)
                    .with(declared -> declared.setRulebookId(cell.book().id())))
            .dossier()
        : lot.parent(
                "l1",
                new Material(
                    Facts.HYBRID,
                    Facts.HYBRID,
                    Material.Kind.F1_SEED,
                    Category.CERTIFIED,
                    2024,
                    cell.book().id()))
            .dossier();
  }

  /** What people read in the table is what the gates ask of this dossier. */
  private static void checkTable(
      List<RequiredLimit> demands,
      Function<Quantity, RulebookAnswer> book,
      List<RuleTable.Row> table,
      int column) {
    for (RequiredLimit demand : demands) {
      RuleTable.Row row =
          table.stream()
              .filter(
                  line ->
                      line.gate().equals(Optional.of(demand.gate()))
                          && line.quantities().equals(demand.anyOf()))
              .findFirst()
              .orElseThrow(() -> new AssertionError("not in the table: " + demand));
      RulebookAnswer shown = row.answers().get(column).orElseThrow();
      List<RulebookAnswer> answers = demand.anyOf().stream().map(book).toList();
      assertThat(answers).as(demand.toString()).contains(shown);
      assertThat(shown.limit().isPresent())
          .as(demand.toString())
          .isEqualTo(answers.stream().anyMatch(answer -> answer.limit().isPresent()));
      assertThat(shown.nothing().isPresent())
          .as(demand.toString())
          .isEqualTo(answers.stream().allMatch(answer -> answer.nothing().isPresent()));
    }
  }

  private record Cell<R>(Rulebook book, Category category, R role) {
    @Override
    public String toString() {
      return book.id() + " " + category + " " + role;
    }
  }

  private static <R> Stream<Cell<R>> product(R[] roles) {
    return Rulebooks.bundled().all().stream()
        .flatMap(
            book ->
                Arrays.stream(Category.values())
                    .flatMap(
                        category ->
                            Arrays.stream(roles).map(role -> new Cell<>(book, category, role))));
  }

  private static void check(
      Cell<?> cell,
      Dossier dossier,
      List<RequiredLimit> demands,
      Function<Quantity, RulebookAnswer> book,
      boolean possible) {
    Standing standing = JUDGE.judge(dossier).standing().orElseThrow();
    assertThat(demands).isNotEmpty();
    List<String> wrong = new ArrayList<>();
    for (RequiredLimit demand : demands) {
      List<RulebookAnswer> answers = demand.anyOf().stream().map(book).toList();
      Optional<Limit> limit =
          answers.stream().flatMap(answer -> answer.limit().stream()).findFirst();
      boolean hasVerdict =
          standing.verdicts().stream()
              .filter(verdict -> verdict.gate() == demand.gate())
              .anyMatch(verdict -> !isSilent(verdict));
      boolean owed =
          standing.verdicts().stream()
              .filter(verdict -> verdict.gate() == demand.gate())
              .filter(EveryRuleAnsweredTest::isSilent)
              .anyMatch(verdict -> verdict.aspect().endsWith(demand.anyOf().get(0).name()));
      boolean noted =
          standing.ruleNotes().stream()
              .filter(note -> note.gate().equals(Optional.of(demand.gate())))
              .anyMatch(note -> note.finding().values().toList().contains(term(demand)));
      if (limit.isPresent() ? owed || noted || !hasVerdict : owed == noted) {
        wrong.add(demand + ": limit " + limit + ", owed " + owed + ", noted " + noted);
      }
      if (noted && !possible) {
        wrong.add(demand + ": nothing is asked of what cannot be");
      }
      row(cell, demand, answers, limit, noted);
    }
    assertThat(wrong).isEmpty();
  }

  private static void row(
      Cell<?> cell,
      RequiredLimit demand,
      List<RulebookAnswer> answers,
      Optional<Limit> limit,
      boolean noted) {
    String asks =
        limit.map(Limit::wording).orElse(noted ? "nothing" : "evidence owed: the book is silent");
    String source =
        limit
            .map(Limit::citation)
            .or(
                () ->
                    noted
                        ? answers.stream()
                            .flatMap(answer -> answer.nothing().stream())
                            .map(EveryRuleAnsweredTest::citation)
                            .findFirst()
                        : Optional.empty())
            .orElse("none");
    TABLE.row(
        cell.book().id(),
        cell.category() + ", " + cell.role(),
        demand.gate() + ": " + demand.anyOf().get(0),
        asks,
        source);
  }

  private static String citation(NothingAsked nothing) {
    return "%s %s: %s, %s, in force from %s%s"
        .formatted(
            nothing.rulebookId(),
            nothing.edition(),
            nothing.text(),
            nothing.section(),
            nothing.inForceFrom(),
            nothing.verified() || nothing.text().equals(Limit.NO_SOURCE)
                ? ""
                : "; not verified against the text");
  }

  private static boolean isSilent(Verdict verdict) {
    return verdict instanceof Verdict.Owed owed
        && owed.findings().stream().anyMatch(finding -> finding.code().equals("rule.no-line"));
  }

  private static Value term(RequiredLimit demand) {
    Quantity first = demand.anyOf().get(0);
    return new Value.Term(Quantity.class.getSimpleName(), first.name());
  }

  private static Dossier crop(Cell<CropRole> cell) {
    return Dossiers.crop("c1")
        .with(
            Facts.crop("c1", cell.role())
                .with(crop -> crop.setRulebookId(cell.book().id()).setCategory(cell.category())))
        .scheme()
        .dossier();
  }

  private static Dossier lot(Cell<Material.Kind> cell) {
    return switch (cell.role()) {
      case COMPONENT -> declared(cell, Facts.SINGLE_CROSS);
      case F1_SEED -> declared(cell, Facts.HYBRID);
      case TECHNICAL_MIXTURE ->
          Dossiers.lot("l1")
              .with(Facts.blend("l1").female("f1", 950).pollinator("p1", 50))
              .parent("f1", component(cell, Facts.SINGLE_CROSS))
              .parent("p1", component(cell, Facts.RESTORER))
              .scheme()
              .dossier();
    };
  }

  private static Dossier declared(Cell<Material.Kind> cell, String seed) {
    return Dossiers.lot("l1")
        .with(
            Facts.declared("l1", seed, cell.category(), 1000)
                .with(lot -> lot.setRulebookId(cell.book().id())),
            Facts.blend("m1").female("l1", 500).pollinator("p1", 20),
            Facts.postControl("l1", 2000, 0)
                .with(result -> result.setSheddingPlants(0).setNonHybridPlants(0)))
        .scheme()
        .dossier();
  }

  private static Material component(Cell<Material.Kind> cell, String seed) {
    return new Material(
        Facts.HYBRID, seed, Material.Kind.COMPONENT, cell.category(), 2024, cell.book().id());
  }
}
