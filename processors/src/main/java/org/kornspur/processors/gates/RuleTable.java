package org.kornspur.processors.gates;

import java.time.LocalDate;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import java.util.function.Predicate;
import java.util.stream.Stream;
import org.kornspur.contract.Category;
import org.kornspur.contract.CropRole;
import org.kornspur.processors.dossier.Material;
import org.kornspur.processors.standards.CropCategories;
import org.kornspur.processors.standards.Quantity;
import org.kornspur.processors.standards.Rulebook;
import org.kornspur.processors.standards.RulebookAnswer;
import org.kornspur.processors.standards.Rye;
import org.kornspur.processors.verdict.Gate;

/**
 * What a rulebook answers to each gate, without any crop or lot: for people who want to read the
 * rules before they are judged by them. The gates themselves ask through {@link RequiredLimits}
 * too, so the table cannot say other than they do.
 */
public final class RuleTable {

  private RuleTable() {}

  /**
   * One line of the table.
   *
   * @param gate gate that asks; empty for what the book limits and no gate asks for in itself
   * @param quantities what is asked for; a limit for one of them is enough
   * @param answers one for each category, in their order; empty where it is not asked for, as a
   *     least sample for what has no limit
   */
  public record Row(
      Optional<Gate> gate, List<Quantity> quantities, List<Optional<RulebookAnswer>> answers) {}

  /** What the book says of one category, and what is asked in it. */
  private record Column(List<RequiredLimit> demands, Function<Quantity, RulebookAnswer> book) {

    boolean isLimited(Quantity quantity) {
      return book.apply(quantity).limit().isPresent();
    }

    /** A limit for one of the quantities is enough; silence on one of them is silence. */
    Optional<RulebookAnswer> answer(RequiredLimit demand) {
      List<RulebookAnswer> answers = demand.anyOf().stream().map(book).toList();
      Optional<RulebookAnswer> limit =
          answers.stream().filter(answer -> answer.limit().isPresent()).findFirst();
      if (limit.isPresent() || !demands.contains(demand)) {
        return limit;
      }
      return answers.stream()
          .filter(RulebookAnswer::isSilent)
          .findFirst()
          .or(() -> Optional.of(answers.get(0)));
    }
  }

  /** Categories that a crop in this role can be grown for. */
  public static List<Category> categories(CropRole role) {
    return CropCategories.of(role).stream().sorted().toList();
  }

  /** Categories that seed of this kind can have. */
  public static List<Category> categories(Material.Kind kind) {
    return Arrays.stream(Category.values())
        .filter(category -> ImpossibleCategory.isPossible(kind, category))
        .toList();
  }

  /** What is asked of crops in a role, in each category that they can be grown for. */
  public static List<Row> ofCrop(Rulebook book, CropRole role, LocalDate on) {
    return rows(
        categories(role),
        category -> quantity -> book.answerForCrop(quantity, category, role, on),
        isLimited -> RequiredLimits.ofCrop(role, isLimited),
        true);
  }

  /** What is asked of hybrid rye seed of a kind, in each category that it can have. */
  public static List<Row> ofSeed(Rulebook book, Material.Kind kind, LocalDate on) {
    return rows(
        categories(kind),
        category -> quantity -> book.answerForLot(quantity, category, Rye.HYBRID, on),
        isLimited -> RequiredLimits.ofSeed(kind, isLimited),
        false);
  }

  private static List<Row> rows(
      List<Category> categories,
      Function<Category, Function<Quantity, RulebookAnswer>> books,
      Function<Predicate<Quantity>, List<RequiredLimit>> demandsWhere,
      boolean ofCrop) {
    List<Column> columns =
        categories.stream()
            .map(books)
            .map(
                book ->
                    new Column(
                        demandsWhere.apply(quantity -> book.apply(quantity).limit().isPresent()),
                        book))
            .toList();
    List<RequiredLimit> demands =
        columns.stream().flatMap(column -> column.demands().stream()).distinct().toList();
    Stream<Row> asked =
        demands.stream().map(demand -> row(Optional.of(demand.gate()), demand, columns));
    Stream<Row> further =
        Arrays.stream(Quantity.values())
            .filter(quantity -> quantity.ofCrop() == ofCrop)
            .filter(
                quantity -> demands.stream().noneMatch(demand -> demand.anyOf().contains(quantity)))
            .filter(quantity -> columns.stream().anyMatch(column -> column.isLimited(quantity)))
            .map(
                quantity ->
                    row(Optional.empty(), RequiredLimit.of(Gate.ORIGIN, quantity), columns));
    return Stream.concat(asked, further).toList();
  }

  private static Row row(Optional<Gate> gate, RequiredLimit demand, List<Column> columns) {
    return new Row(
        gate, demand.anyOf(), columns.stream().map(column -> column.answer(demand)).toList());
  }
}
