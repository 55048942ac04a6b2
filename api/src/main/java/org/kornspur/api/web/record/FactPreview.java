package org.kornspur.api.web.record;

import jakarta.enterprise.context.RequestScoped;
import jakarta.inject.Inject;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.ToDoubleFunction;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.api.command.fact.SubmissionPreview;
import org.kornspur.api.query.RequestWords;
import org.kornspur.api.query.StandingHeadlines;
import org.kornspur.api.query.VisibleData;
import org.kornspur.api.text.LocalFormat;
import org.kornspur.api.text.PageTexts;
import org.kornspur.api.web.form.PreviewLine;
import org.kornspur.api.web.form.PreviewLine.Weight;
import org.kornspur.contract.Blend;
import org.kornspur.contract.Conditioning;
import org.kornspur.contract.Dispatch;
import org.kornspur.contract.FieldCropDeclared;
import org.kornspur.contract.Harvest;
import org.kornspur.contract.HybridDeclared;
import org.kornspur.contract.LotMass;
import org.kornspur.contract.Sampling;
import org.kornspur.contract.Sowing;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.balance.ConditioningAccount;
import org.kornspur.processors.balance.MassFlow;
import org.kornspur.processors.judging.Standing;
import org.kornspur.processors.judging.StandingPreview;
import org.kornspur.standing.ReleaseStep;
import org.kornspur.standing.StandingState;

/** What a fact comes to, before it is recorded: masses, shares, and how seed would stand. */
@RequestScoped
public class FactPreview {
  /** Sums of decimal kilograms are not exact in binary; a gram is no seed. */
  private static final double ROUNDING_KG = 0.001;

  @Inject SubmissionPreview submissionPreview;
  @Inject VisibleData data;
  @Inject RequestWords words;
  @Inject StandingHeadlines headlines;
  @Inject PlanWarnings warnings;

  /**
   * How a crop or lot would stand.
   *
   * @param before empty where it is new
   * @param after empty where nothing would be known of it any more
   * @param verdicts what changes, and what the work is judged by
   */
  public record StandingLine(
      String name,
      Optional<StandingState> before,
      Optional<StandingState> after,
      List<PreviewLine> verdicts) {}

  /**
   * All of it.
   *
   * @param told whether the standings can be told beforehand
   */
  public record Shown(List<PreviewLine> lines, List<StandingLine> standings, boolean told) {}

  /**
   * What follows from a fact that nothing speaks against.
   *
   * @param replaced the fact that it corrects or takes back
   */
  Shown of(SpecificRecord fact, Optional<SpecificRecord> replaced) {
    List<StandingPreview.Change> seen =
        submissionPreview.changes(fact, replaced).stream()
            .filter(change -> change.before().isEmpty() || data.sees(change.subject()))
            .toList();
    List<PreviewLine> lines = new ArrayList<>(lines(fact));
    Optional<SpecificRecord> added = replaced.isEmpty() ? Optional.of(fact) : Optional.empty();
    seen.stream().flatMap(change -> stock(change, added).stream()).forEach(lines::add);
    return new Shown(
        lines,
        seen.stream().map(new StandingLines(words, headlines)::line).toList(),
        !seen.isEmpty());
  }

  private List<PreviewLine> lines(SpecificRecord fact) {
    if (fact instanceof Conditioning conditioning) {
      return List.of(missing(ConditioningAccount.of(conditioning)));
    } else if (fact instanceof Blend blend) {
      return share(blend);
    } else if (fact instanceof Harvest harvest) {
      return harvested(harvest).stream().toList();
    } else if (fact instanceof FieldCropDeclared crop) {
      return warnings.of(crop);
    } else if (fact instanceof Sampling sampling) {
      return data
          .row(Subject.lot(sampling.getLotId()))
          .map(row -> plain("lotHolds", form().kg(row.heldKg())))
          .stream()
          .toList();
    } else if (fact instanceof Dispatch dispatch) {
      return data
          .row(Subject.lot(dispatch.getLotId()))
          .map(
              row ->
                  new PreviewLine(
                      texts().of("release"),
                      words.terms().release(row.release()),
                      row.release() == ReleaseStep.RELEASED ? Weight.GOOD : Weight.OWED))
          .stream()
          .toList();
    }
    return List.of();
  }

  private PreviewLine missing(ConditioningAccount account) {
    double tooMuchKg = -account.differenceKg();
    if (tooMuchKg > ROUNDING_KG) {
      return new PreviewLine(
          texts().of("missing"), texts().of("tooMuch", form().kg(tooMuchKg)), Weight.BAD);
    }
    double lossKg = account.unrecordedLossKg();
    return lossKg <= ROUNDING_KG
        ? new PreviewLine(texts().of("missing"), texts().of("nothingMissing"), Weight.GOOD)
        : new PreviewLine(
            texts().of("missing"),
            texts().of("missingKg", form().kg(lossKg), form().percent(lossKg / account.inputKg())),
            Weight.OWED);
  }

  private List<PreviewLine> share(Blend blend) {
    double femaleKg = total(blend.getFemales());
    double pollinatorKg = total(blend.getPollinators());
    List<PreviewLine> lines = new ArrayList<>();
    lines.add(
        plain(
            "shareReached",
            texts()
                .of(
                    "shareByMass",
                    form().percent(pollinatorKg / (femaleKg + pollinatorKg)),
                    form().kg(pollinatorKg),
                    form().kg(femaleKg + pollinatorKg))));
    lines.add(plain("shareAimedAt", form().percent(blend.getTargetPollinatorSharePercent() / 100)));
    data.countingFacts(Subject.hybrid(blend.getHybridId())).stream()
        .filter(HybridDeclared.class::isInstance)
        .map(HybridDeclared.class::cast)
        .reduce((earlier, later) -> later)
        .map(
            stated ->
                plain(
                    "shareStated",
                    texts()
                        .of(
                            "shareOfBreeder",
                            form().percent(stated.getPollinatorSharePercent() / 100),
                            form().number(stated.getTolerancePercentPoints()),
                            words.terms().constant("ShareBasis", stated.getShareBasis().name()))))
        .ifPresent(lines::add);
    return lines;
  }

  private static double total(List<LotMass> parts) {
    return parts.stream().mapToDouble(LotMass::getMassKg).sum();
  }

  private Optional<PreviewLine> harvested(Harvest harvest) {
    List<SpecificRecord> facts = data.countingFacts(Subject.crop(harvest.getCropId()));
    double sownHa = sum(facts, Sowing.class, Sowing::getAreaHa);
    double earlierKg = sum(facts, Harvest.class, Harvest::getMassKg);
    return sownHa > 0
        ? Optional.of(
            plain(
                "harvested",
                texts()
                    .of(
                        "harvestedOf",
                        form().kg(earlierKg + harvest.getMassKg()),
                        form().measure(sownHa, "ha"),
                        form().kg((earlierKg + harvest.getMassKg()) / sownHa))))
        : Optional.empty();
  }

  private static <T> double sum(List<SpecificRecord> facts, Class<T> type, ToDoubleFunction<T> of) {
    return facts.stream().filter(type::isInstance).map(type::cast).mapToDouble(of).sum();
  }

  /**
   * Stock of a lot before and after, where it changes.
   *
   * @param added a fact that takes no other's place
   */
  private Optional<PreviewLine> stock(
      StandingPreview.Change change, Optional<SpecificRecord> added) {
    if (change.subject().kind() != Subject.Kind.LOT) {
      return Optional.empty();
    }
    double beforeKg = change.before().map(FactPreview::leftKg).orElse(0.0);
    double afterKg = change.after().map(FactPreview::leftKg).orElse(0.0);
    if (Math.abs(beforeKg - afterKg) <= ROUNDING_KG) {
      return Optional.empty();
    }
    boolean isTooMuch = afterKg < -ROUNDING_KG && afterKg < beforeKg;
    boolean isThere =
        change.before().isPresent()
            && added.filter(fact -> isMadeBy(fact, change.subject())).isPresent();
    String text =
        isTooMuch
            ? texts().of("leftTooMuch", form().kg(beforeKg), form().kg(-afterKg))
            : isThere
                ? texts().of("leftThere", form().kg(beforeKg), form().kg(afterKg))
                : texts().of("leftThen", form().kg(beforeKg), form().kg(afterKg));
    return Optional.of(
        new PreviewLine(
            texts().of("leftIn", change.subject().id()),
            text,
            isTooMuch ? Weight.BAD : isThere ? Weight.OWED : Weight.PLAIN));
  }

  private static boolean isMadeBy(SpecificRecord fact, Subject lot) {
    return MassFlow.of(fact).stream()
        .anyMatch(
            flow ->
                flow.direction() == MassFlow.Direction.IN && Subject.lot(flow.lotId()).equals(lot));
  }

  private static double leftKg(Standing standing) {
    return standing.heldKg() - standing.givenOutKg();
  }

  private PreviewLine plain(String key, String text) {
    return new PreviewLine(texts().of(key), text, Weight.PLAIN);
  }

  private LocalFormat form() {
    return words.form();
  }

  private PageTexts texts() {
    return words.texts("record");
  }
}
