package org.kornspur.api.web.audit;

import java.util.List;
import java.util.Optional;
import org.kornspur.api.command.audit.AuditPack;
import org.kornspur.api.command.audit.LotChoice;
import org.kornspur.api.command.audit.SampleDraw;
import org.kornspur.api.query.RequestWords;
import org.kornspur.api.query.VisibleData;
import org.kornspur.api.readmodel.SeedValues;
import org.kornspur.api.readmodel.StandingIndexRow;
import org.kornspur.api.text.Addresses;
import org.kornspur.api.web.Filters;
import org.kornspur.ingest.contract.Subject;

/**
 * What the page shows on which lots are chosen.
 *
 * @param ids as they were given, one a line
 * @param sample how many are drawn; empty where none are
 * @param seed the one asked for, or a fresh one
 * @param lots those chosen; none where nothing was asked for, or too many were found
 * @param found how many were found
 * @param among among how many a sample was drawn
 * @param unknown ids that name no lot
 * @param refused why no pack was begun; empty where none was refused
 * @param packs those of who asks, the newest first
 */
public record AuditView(
    boolean asked,
    String ids,
    List<Filters.Option> seasons,
    List<Filters.Option> holders,
    String sample,
    String seed,
    List<Line> lots,
    int found,
    int among,
    List<String> unknown,
    String refused,
    int most,
    List<PackView> packs) {

  /** A lot that can be ticked. */
  public record Line(StandingIndexRow row, String href, String holder) {}

  static AuditView of(
      LotChoice choice,
      VisibleData data,
      RequestWords words,
      String refused,
      List<AuditPack> packs) {
    LotChoice.Chosen chosen =
        choice.isAny() ? choice.in(data) : new LotChoice.Chosen(List.of(), 0, List.of());
    SeedValues values = data.values();
    return new AuditView(
        choice.isAny(),
        String.join("\n", choice.ids()),
        options(values.cropYears(), choice.cropYear()),
        options(values.holders(), choice.holder()),
        choice.draw().map(SampleDraw::size).map(String::valueOf).orElse(""),
        choice.draw().map(SampleDraw::seed).orElseGet(ChoiceForm::freshSeed),
        chosen.fits() ? chosen.lots().stream().map(row -> line(row, words)).toList() : List.of(),
        chosen.lots().size(),
        chosen.among(),
        chosen.unknown(),
        refused,
        LotChoice.MOST_LOTS,
        packs.stream().map(pack -> PackView.of(pack, words)).toList());
  }

  private static Line line(StandingIndexRow row, RequestWords words) {
    return new Line(
        row,
        Addresses.pageOf(row.subject()),
        row.holder().map(Subject::enterprise).map(words.words()::named).orElse(""));
  }

  private static <T> List<Filters.Option> options(List<T> values, Optional<T> chosen) {
    return values.stream()
        .map(
            value ->
                new Filters.Option(
                    value.toString(), value.toString(), chosen.filter(value::equals).isPresent()))
        .toList();
  }
}
