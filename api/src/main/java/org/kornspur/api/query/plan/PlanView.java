package org.kornspur.api.query.plan;

import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.eclipse.microprofile.openapi.annotations.media.Schema;
import org.kornspur.api.query.view.AsOf;
import org.kornspur.api.text.ReaderWords;
import org.kornspur.contract.PlanVersion;
import org.kornspur.ingest.statement.Coded;
import org.kornspur.processors.plan.Allotment;
import org.kornspur.processors.plan.FitChance;
import org.kornspur.processors.plan.Generation;
import org.kornspur.processors.plan.OwnYields;
import org.kornspur.processors.plan.PlanSimulation;
import org.kornspur.processors.plan.Remedy;
import org.kornspur.processors.plan.SeedPlan;
import org.kornspur.processors.plan.Supply;

/** A plan as the interface tells it. */
@Schema(
    description =
        "A plan of the years ahead, calculated from the standings of the moment. It changes no"
            + " standing. Years are years of harvest; masses are of cleaned seed")
public record PlanView(
    Head head,
    PlanDefinition question,
    @Schema(description = "What is met of each demand") List<DemandView> demands,
    @Schema(description = "Each seed in each year") List<SeasonView> seasons,
    @Schema(description = "What is sown, by year of harvest") List<SeedPlan.Crop> crops,
    @Schema(description = "What is taken of each lot") List<Allotment> allotments,
    @Schema(description = "Lots that are counted on") List<LotView> lots,
    @Schema(description = "Lots in store that are not counted on") List<Supply.LeftOut> leftOut,
    @Schema(description = "What is sown of each pinned area") List<SeedPlan.PinMet> pins,
    @Schema(
            description =
                "Whether ground was shared out among too many hybrids, so that a better plan may"
                    + " exist")
        boolean groundShared,
    @Schema(
            description =
                "What the crops on record brought, of generations with three seasons or more")
        List<OwnYields> ownYields,
    @Schema(
            nullable = true,
            description = "How it differs now from what was approved; null where nothing was")
        ApprovedView approved,
    AsOf asOf) {

  @Schema(description = "A version of a plan")
  public record Head(
      String planId,
      int version,
      String name,
      String savedBy,
      Instant savedAt,
      String reason,
      @Schema(description = "Whether this version is approved") boolean isApproved) {

    /** The head of a version. */
    public static Head of(PlanVersion version) {
      return new Head(
          version.getPlanId(),
          version.getVersion(),
          version.getName(),
          version.getSavedBy(),
          version.getSavedAt(),
          version.getReason(),
          version.getApproval() != null);
    }
  }

  @Schema(description = "One demand, kilograms")
  public record DemandView(
      String hybridId,
      int year,
      double wantedKg,
      double metKg,
      double shortKg,
      @Schema(description = "The limits that keep the plan from meeting all of it")
          List<Reason> reasons,
      @Schema(
              description =
                  "What can still be done, with the last days for it; none where it is met")
          List<Reason> remedies,
      @Schema(description = "Part of simulated seasons in which it is met") double chanceMet,
      @Schema(description = "Met in all but a tenth of simulated seasons") double kg10,
      @Schema(description = "Met in half of them") double kg50,
      @Schema(description = "Met in a tenth of them") double kg90) {}

  @Schema(description = "A limit or remedy, as data and in words")
  public record Reason(Coded reason, String sentence) {}

  @Schema(description = "One seed in one year, kilograms")
  public record SeasonView(
      String seedId,
      Generation generation,
      int year,
      @Schema(description = "What the whole demand asks for") double neededKg,
      @Schema(description = "In store and harvested by this plan") double availableKg,
      @Schema(description = "Missing for demand that is not met") double shortKg,
      @Schema(description = "Grown for this harvest, hectares") double areaHa) {}

  @Schema(description = "A lot that is counted on")
  public record LotView(
      String lotId,
      String seedId,
      double massKg,
      @Schema(description = "What the plan counts on, kilograms") double countedKg,
      @Schema(
              nullable = true,
              description = "Chance that it becomes fit; null where it is fit and released")
          FitChance waiting,
      @Schema(
              nullable = true,
              description = "How much less is met on average if it does not become fit, kilograms")
          Double ifNotFitKg) {}

  @Schema(description = "The latest approved version")
  public record ApprovedView(
      int version,
      String approvedBy,
      Instant approvedAt,
      String reason,
      PlanDifference difference) {}

  /** The view of a calculated plan. */
  public static PlanView of(CalculatedPlan calculated, ReaderWords words, AsOf asOf) {
    Map<String, Double> risks = new HashMap<>();
    calculated.simulation().lots().forEach(lot -> risks.put(lot.lotId(), lot.ifNotFitKg()));
    return new PlanView(
        Head.of(calculated.version()),
        calculated.question(),
        demands(calculated, words),
        SeedBalance.of(calculated),
        calculated.plan().crops(),
        calculated.allotments(),
        calculated.task().lots().stream()
            .map(
                lot ->
                    new LotView(
                        lot.lotId(),
                        lot.seedId(),
                        lot.massKg(),
                        lot.countedKg(),
                        lot.waiting().orElse(null),
                        risks.get(lot.lotId())))
            .toList(),
        calculated.supply().leftOut(),
        calculated.plan().pins(),
        calculated.plan().isGroundShared(),
        calculated.ownYields(),
        calculated.difference().map(PlanView::approved).orElse(null),
        asOf);
  }

  private static List<DemandView> demands(CalculatedPlan calculated, ReaderWords words) {
    Map<Object, PlanSimulation.Chance> chances = new HashMap<>();
    calculated.simulation().demands().forEach(one -> chances.put(one.wanted(), one));
    return calculated.plan().demands().stream()
        .map(
            met -> {
              PlanSimulation.Chance chance = chances.get(met.wanted());
              return new DemandView(
                  met.wanted().hybridId(),
                  met.wanted().year(),
                  met.wanted().kg(),
                  met.soldKg(),
                  met.shortKg(),
                  met.reasons().stream()
                      .map(reason -> new Reason(reason.coded(), words.plain(reason)))
                      .toList(),
                  Remedy.of(calculated.task(), met, LocalDate.now(ZoneId.systemDefault())).stream()
                      .map(remedy -> new Reason(remedy.coded(), words.plain(remedy)))
                      .toList(),
                  chance.chanceMet(),
                  chance.kg10(),
                  chance.kg50(),
                  chance.kg90());
            })
        .toList();
  }

  private static ApprovedView approved(CalculatedPlan.Approved approved) {
    return new ApprovedView(
        approved.version().getVersion(),
        approved.version().getApproval().getApprovedBy(),
        approved.version().getApproval().getApprovedAt(),
        approved.version().getApproval().getReason(),
        approved.difference());
  }

  /** Whether all demand is met. */
  public boolean isAllMet() {
    return demands.stream().allMatch(one -> one.shortKg() == 0);
  }

  /** The approved version. */
  public Optional<ApprovedView> ifApproved() {
    return Optional.ofNullable(approved);
  }
}
