package org.kornspur.api.web.help;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.kornspur.api.text.ReaderWords;
import org.kornspur.contract.Category;
import org.kornspur.contract.CropRole;
import org.kornspur.processors.dossier.Material;
import org.kornspur.processors.finding.Reference;
import org.kornspur.processors.finding.RuleFinding;
import org.kornspur.processors.gates.RuleTable;
import org.kornspur.processors.standards.Rulebook;
import org.kornspur.processors.standards.RulebookAnswer;

/**
 * What one rulebook asks for, in words.
 *
 * @param book id of the rulebook
 * @param title its title and edition
 * @param notes what it judges as what
 * @param ofCrops a table for each role of a crop
 * @param ofSeed a table for each kind of seed
 * @param sources where the cells stand written, numbered from 1
 */
public record RulesView(
    String book,
    String title,
    List<String> notes,
    List<Table> ofCrops,
    List<Table> ofSeed,
    List<String> sources) {

  /**
   * What is asked of one role or kind.
   *
   * @param id of the table on the page
   * @param categories its columns
   */
  public record Table(String id, String title, List<String> categories, List<Row> rows) {}

  /** One question of a gate; the gate's name is empty where no gate asks it in itself. */
  public record Row(String gate, String what, List<Cell> cells) {}

  /**
   * The answer for one category.
   *
   * @param kind of the answer
   * @param limit in words; empty where there is none
   * @param source number of the source; 0 where there is none
   */
  public record Cell(Kind kind, String limit, int source) {}

  /** What a rulebook can answer. */
  public enum Kind {
    LIMIT,
    NOTHING,
    OWED,
    /** It is not asked for here, because what it belongs to is not limited. */
    NOT_ASKED
  }

  static RulesView of(Rulebook book, LocalDate on, ReaderWords words) {
    Writer writer = new Writer(words);
    List<Table> ofCrops =
        Arrays.stream(CropRole.values())
            .filter(role -> !RuleTable.categories(role).isEmpty())
            .map(
                role ->
                    writer.table(
                        role, RuleTable.categories(role), RuleTable.ofCrop(book, role, on)))
            .toList();
    List<Table> ofSeed =
        Arrays.stream(Material.Kind.values())
            .map(
                kind ->
                    writer.table(
                        kind, RuleTable.categories(kind), RuleTable.ofSeed(book, kind, on)))
            .toList();
    List<String> notes =
        Arrays.stream(Category.values())
            .flatMap(category -> book.judgedAs(category, on).stream())
            .map(
                as ->
                    words.plain(
                        new RuleFinding.JudgedAs(
                            as.category(), as.as(), Reference.of(as.source()))))
            .toList();
    return new RulesView(
        book.id(),
        words.rulebook(book),
        notes,
        ofCrops,
        ofSeed,
        List.copyOf(writer.sources.keySet()));
  }

  /** Writes tables and numbers their sources as they come. */
  private static final class Writer {
    private final ReaderWords words;
    private final Map<String, Integer> sources = new LinkedHashMap<>();

    Writer(ReaderWords words) {
      this.words = words;
    }

    Table table(Enum<?> of, List<Category> categories, List<RuleTable.Row> rows) {
      List<Row> written = new ArrayList<>();
      for (RuleTable.Row row : rows) {
        written.add(
            new Row(
                row.gate().map(words::term).orElse(""),
                row.quantities().stream().map(words::term).collect(Collectors.joining(" / ")),
                row.answers().stream()
                    .map(
                        answer ->
                            answer.map(this::cell).orElseGet(() -> new Cell(Kind.NOT_ASKED, "", 0)))
                    .toList()));
      }
      return new Table(
          of.name(),
          words.term(of),
          categories.stream().map(words::term).toList(),
          List.copyOf(written));
    }

    private Cell cell(RulebookAnswer answer) {
      if (answer instanceof RulebookAnswer.Limited limited) {
        return new Cell(
            Kind.LIMIT, words.limit(limited.line()), number(words.source(limited.line())));
      } else if (answer instanceof RulebookAnswer.Nothing nothing) {
        return new Cell(Kind.NOTHING, "", number(words.plain(Reference.of(nothing.line()))));
      }
      return new Cell(Kind.OWED, "", 0);
    }

    private int number(String source) {
      return sources.computeIfAbsent(source, added -> sources.size() + 1);
    }
  }
}
