package org.kornspur.api.web.file;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.kornspur.api.command.fact.TableIntake.Fate;
import org.kornspur.api.command.table.SentTable;
import org.kornspur.api.command.table.SentTable.Step;
import org.kornspur.api.command.table.TableChoices;
import org.kornspur.api.problem.ProblemLanguage;
import org.kornspur.api.query.RequestWords;
import org.kornspur.api.text.LocalFormat;
import org.kornspur.api.text.PageTexts;
import org.kornspur.api.text.TableTexts;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.file.DayOrder;
import org.kornspur.ingest.file.DecimalMark;
import org.kornspur.ingest.file.DetectedTable;
import org.kornspur.ingest.file.FactTableWriter;
import org.kornspur.ingest.intake.ProblemWords;

/** Shows a table that a person sent in the words of who looks at it. */
final class FileViews {
  private static final int LINES_OF_A_PAGE = 100;

  private final RequestWords words;
  private final PageTexts texts;
  private final LocalFormat form;
  private final ProblemWords problems;
  private final List<FactType> mayBring;

  FileViews(RequestWords words, List<FactType> mayBring) {
    this.words = words;
    this.texts = words.texts("files");
    this.form = words.form();
    this.problems = ProblemLanguage.words(words.language());
    this.mayBring = mayBring;
  }

  FileView of(SentTable table, Optional<Fate> fate, int page) {
    String address = "/files/" + table.id();
    List<DetectedTable.Sheet> sheets = table.form().map(DetectedTable::sheets).orElse(List.of());
    int from = (Math.max(1, page) - 1) * LINES_OF_A_PAGE;
    List<SentTable.Shown> shown = table.lines(fate, from, LINES_OF_A_PAGE + 1);
    TableChoices choices = table.choices();
    Step step = table.step();
    return new FileView(
        table.fileName(),
        address,
        step == Step.READING || step == Step.RECORDING,
        step == Step.RECORDING || step == Step.RECORDED,
        table.done(),
        table.all(),
        counts(table, fate, address),
        table.form().map(form -> told(form, table.remembered())).orElse(List.of()),
        table.refusal().map(problems::sentence),
        sheets.stream().flatMap(sheet -> unknown(sheet, choices)).toList(),
        kinds(choices),
        choices(DecimalMark.values(), choices.decimalMark(), "mark"),
        choices(DayOrder.values(), choices.dayOrder(), "order"),
        table.canBeRecorded(),
        table.count(Fate.NEW),
        table.refused().size(),
        shown.stream().limit(LINES_OF_A_PAGE).map(line -> line(line, sheets)).toList(),
        page > 1 ? Optional.of(address(address, fate, page - 1)) : Optional.empty(),
        shown.size() > LINES_OF_A_PAGE
            ? Optional.of(address(address, fate, page + 1))
            : Optional.empty());
  }

  private static String address(String address, Optional<Fate> fate, int page) {
    return address + "?page=" + page + fate.map(one -> "&rows=" + one).orElse("");
  }

  private List<FileView.Count> counts(SentTable table, Optional<Fate> fate, String address) {
    return Arrays.stream(Fate.values())
        .filter(one -> table.count(one) > 0)
        .map(
            one -> {
              boolean isShown = fate.filter(one::equals).isPresent();
              return new FileView.Count(
                  one.name(),
                  texts.of("fate", one),
                  table.count(one),
                  isShown ? address : address + "?rows=" + one,
                  isShown);
            })
        .toList();
  }

  private List<String> told(DetectedTable told, List<String> remembered) {
    List<String> sentences = new ArrayList<>();
    String kinds =
        told.sheets().stream()
            .map(DetectedTable.Sheet::kind)
            .distinct()
            .map(words.terms()::fact)
            .collect(Collectors.joining(", "));
    sentences.add(texts.of("toldKind", kinds));
    told.encoding()
        .ifPresent(
            encoding ->
                sentences.add(
                    texts.of(
                        "toldText",
                        encoding,
                        texts.of("delimiter", delimiter(told.delimiter().orElse(','))))));
    told.decimalMark()
        .ifPresent(mark -> sentences.add(texts.of("toldMark", texts.of("mark", mark))));
    told.dayOrder()
        .ifPresent(order -> sentences.add(texts.of("toldOrder", texts.of("order", order))));
    sentences.add(texts.of("toldZone", told.zone().getId()));
    if (!remembered.isEmpty()) {
      sentences.add(texts.of("toldRemembered", String.join(", ", remembered)));
    }
    if (!told.sheetsLeftOut().isEmpty()) {
      sentences.add(texts.of("toldLeftOut", String.join(", ", told.sheetsLeftOut())));
    }
    return sentences;
  }

  private static String delimiter(char delimiter) {
    return switch (delimiter) {
      case ';' -> "SEMICOLON";
      case '\t' -> "TAB";
      default -> "COMMA";
    };
  }

  /** The columns of no field, and those of which the person said what they are. */
  private Stream<FileView.Unknown> unknown(DetectedTable.Sheet sheet, TableChoices choices) {
    Set<String> taken =
        sheet.columns().stream()
            .filter(column -> !choices.columns().containsKey(column.name()))
            .flatMap(column -> column.path().stream())
            .collect(Collectors.toSet());
    List<FactTableWriter.Column> free =
        TableTemplate.columnsOf(sheet.kind(), TableTexts.in(words.language())).columns().stream()
            .filter(column -> !taken.contains(column.path()))
            .toList();
    return Stream.concat(
            sheet.unknown().stream().map(DetectedTable.Column::name),
            sheet.columns().stream()
                .map(DetectedTable.Column::name)
                .filter(choices.columns()::containsKey))
        .distinct()
        .map(name -> new FileView.Unknown(name, fields(free, choices.columns().get(name))));
  }

  private List<FileView.Choice> fields(List<FactTableWriter.Column> free, String said) {
    List<FileView.Choice> fields = new ArrayList<>();
    fields.add(new FileView.Choice("", texts.of("chooseField"), said == null));
    fields.add(
        new FileView.Choice(
            TableChoicesForm.LEFT_OUT, texts.of("leaveOut"), said != null && said.isEmpty()));
    free.forEach(
        column ->
            fields.add(
                new FileView.Choice(column.path(), column.name(), column.path().equals(said))));
    return fields;
  }

  private List<FileView.Choice> kinds(TableChoices choices) {
    return Stream.concat(
            Stream.of(new FileView.Choice("", texts.of("asFileSays"), choices.kind().isEmpty())),
            mayBring.stream()
                .map(
                    type ->
                        new FileView.Choice(
                            type.contractName(),
                            words.terms().fact(type),
                            choices.kind().filter(type::equals).isPresent()))
                .sorted(Comparator.comparing(FileView.Choice::label)))
        .toList();
  }

  private <E extends Enum<E>> List<FileView.Choice> choices(
      E[] constants, Optional<E> said, String key) {
    return Stream.concat(
            Stream.of(new FileView.Choice("", texts.of("asFileSays"), said.isEmpty())),
            Arrays.stream(constants)
                .map(
                    one ->
                        new FileView.Choice(
                            one.name(), texts.of(key, one), said.filter(one::equals).isPresent())))
        .toList();
  }

  private FileView.Line line(SentTable.Shown line, List<DetectedTable.Sheet> sheets) {
    DetectedTable.Sheet sheet = sheets.get(line.sheet());
    String what =
        Stream.of(
                line.kind().map(words.terms()::fact),
                Optional.of(
                        line.subjects().stream()
                            .map(subject -> subject.id())
                            .distinct()
                            .collect(Collectors.joining(", ")))
                    .filter(ids -> !ids.isEmpty()),
                line.happenedAt().map(form::minute))
            .flatMap(Optional::stream)
            .collect(Collectors.joining(" · "));
    return new FileView.Line(
        sheets.size() > 1 ? sheet.name() + " " + line.row() : String.valueOf(line.row()),
        line.fate().name(),
        texts.of("fate", line.fate()),
        what,
        line.problems().stream()
            .map(problem -> RefusedRows.sentence(sheet, problem, problems, words.language()))
            .toList());
  }
}
