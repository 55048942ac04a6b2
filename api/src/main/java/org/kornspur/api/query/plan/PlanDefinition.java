package org.kornspur.api.query.plan;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.IntSummaryStatistics;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import org.eclipse.microprofile.openapi.annotations.media.Schema;
import org.kornspur.api.http.JsonBody;
import org.kornspur.api.problem.ApiProblem;
import org.kornspur.api.problem.PlanDetail;
import org.kornspur.ingest.problem.Expected;
import org.kornspur.processors.plan.AreaLimit;
import org.kornspur.processors.plan.Generation;
import org.kornspur.processors.plan.PinnedArea;
import org.kornspur.processors.plan.PlanInputs;
import org.kornspur.processors.plan.PlanTask;
import org.kornspur.processors.plan.SeedDemand;
import org.kornspur.processors.plan.SeedInputs;
import org.kornspur.processors.statistics.TriangularRange;

/**
 * What a person wants of a plan and what they decided in it: the part that is stored. All else is
 * calculated from it.
 */
@JsonInclude(JsonInclude.Include.NON_NULL)
@Schema(
    name = "PlanQuestion",
    description = "Demand, limits, inputs and choices. Years are years of harvest")
public record PlanDefinition(
    @Schema(
            required = true,
            description = "Year of the last harvest that is in; its seed is sown or sold first",
            examples = "2026")
        Integer firstYear,
    @Schema(required = true, description = "Last year of harvest, at most 12 later")
        Integer lastYear,
    @Schema(description = "Which of the three quantities to plan for; EXPECTED where left out")
        SeedDemand.Level level,
    @Schema(required = true, description = "What is wanted") List<Wanted> demands,
    @Schema(description = "The most hectares that can be grown") List<Ground> limits,
    @Schema(description = "Areas that are decided on") List<Pin> pins,
    @Schema(description = "Lots that the plan must not count on") List<String> leftOutLots,
    @Schema(description = "Yields, rates and losses that differ from common practice")
        List<Inputs> inputs,
    @Schema(description = "Which field bears which crop, as far as a person decided")
        FieldChoices fields) {

  @Schema(description = "Certified seed of a hybrid that is wanted of one harvest, tonnes")
  @JsonInclude(JsonInclude.Include.NON_NULL)
  public record Wanted(
      @Schema(required = true) String hybridId,
      @Schema(required = true) Integer year,
      @Schema(description = "In a bad case; as expected where left out") Double lowTonnes,
      @Schema(required = true) Double expectedTonnes,
      @Schema(description = "In a good case; as expected where left out") Double highTonnes,
      @Schema(description = "What a missing kilogram counts beside others, 0.01 to 100; else 1")
          Double weight) {}

  @Schema(description = "The most hectares that can be grown for one harvest")
  @JsonInclude(JsonInclude.Include.NON_NULL)
  public record Ground(
      @Schema(description = "Of this generation alone; of all where left out")
          Generation generation,
      @Schema(required = true) Integer year,
      @Schema(required = true) Double mostHa) {}

  @Schema(description = "Hectares of one seed for one harvest that a person decided on")
  public record Pin(
      @Schema(required = true, description = "Component or hybrid") String seedId,
      @Schema(required = true) Integer year,
      @Schema(required = true) Double areaHa) {}

  /** What is left out is common practice. */
  @Schema(
      description =
          "Inputs of a generation, or of one component or hybrid. What is left out is common"
              + " practice, for which there is no source")
  @JsonInclude(JsonInclude.Include.NON_NULL)
  public record Inputs(
      @Schema(required = true) Generation generation,
      @Schema(description = "This component or hybrid alone") String seedId,
      @Schema(description = "Of the whole crop before cleaning, in a bad case")
          Double yieldLowKgPerHa,
      Double yieldKgPerHa,
      @Schema(description = "In a good case") Double yieldHighKgPerHa,
      Double cleaningLossPercent,
      Double thousandKernelWeightG,
      Double germinationPercent,
      Double viableKernelsPerM2,
      @Schema(description = "Part of the ground that the female has in strips")
          Double femaleAreaPercent,
      @Schema(description = "To be left in store after each sowing") Double minimumStockKg,
      @Schema(description = "Years from one multiplication to the next") Integer intervalYears,
      @Schema(description = "Part that counts no more after a year in store")
          Double carryOverLossPercent) {

    /** The inputs that are meant, over those of common practice. */
    SeedInputs over(SeedInputs usual) {
      double low = or(yieldLowKgPerHa, usual.yieldKgPerHa().least());
      double likely = or(yieldKgPerHa, usual.yieldKgPerHa().likely());
      double high = or(yieldHighKgPerHa, usual.yieldKgPerHa().greatest());
      return new SeedInputs(
          spread("inputs.yieldKgPerHa", low, likely, high),
          or(cleaningLossPercent, usual.cleaningLoss() * 100) / 100,
          or(thousandKernelWeightG, usual.thousandKernelWeightG()),
          or(germinationPercent, usual.germination() * 100) / 100,
          or(viableKernelsPerM2, usual.viableKernelsPerM2()),
          or(femaleAreaPercent, usual.femaleAreaShare() * 100) / 100,
          or(minimumStockKg, usual.minimumStockKg()),
          intervalYears == null ? usual.intervalYears() : intervalYears,
          or(carryOverLossPercent, usual.carryOverLoss() * 100) / 100);
    }
  }

  public PlanDefinition {
    demands = copy(demands);
    limits = copy(limits);
    pins = copy(pins);
    leftOutLots = copy(leftOutLots);
    inputs = copy(inputs);
    fields = fields == null ? FieldChoices.none() : fields;
  }

  private static <T> List<T> copy(List<T> list) {
    return list == null ? List.of() : List.copyOf(list);
  }

  private static double or(Double given, double otherwise) {
    return given == null ? otherwise : given;
  }

  private static TriangularRange spread(String field, double low, double likely, double high) {
    if (!(low <= likely && likely <= high)) {
      throw ApiProblem.refused(new PlanDetail.NotInOrder(field, low, likely, high));
    }
    return new TriangularRange(low, likely, high);
  }

  /** Notes what is missing. */
  public void check(JsonBody body) {
    body.required("firstYear", firstYear, new Expected.WholeNumber());
    body.required("lastYear", lastYear, new Expected.WholeNumber());
    for (int i = 0; i < demands.size(); i++) {
      String at = "demands[" + i + "].";
      body.required(at + "hybridId", demands.get(i).hybridId(), new Expected.Id("hybrid"));
      body.required(at + "year", demands.get(i).year(), new Expected.WholeNumber());
      body.required(at + "expectedTonnes", demands.get(i).expectedTonnes(), new Expected.Decimal());
    }
    for (int i = 0; i < limits.size(); i++) {
      body.required("limits[" + i + "].year", limits.get(i).year(), new Expected.WholeNumber());
      body.required("limits[" + i + "].mostHa", limits.get(i).mostHa(), new Expected.Decimal());
    }
    for (int i = 0; i < pins.size(); i++) {
      body.required("pins[" + i + "].seedId", pins.get(i).seedId(), new Expected.Id("component"));
      body.required("pins[" + i + "].year", pins.get(i).year(), new Expected.WholeNumber());
      body.required("pins[" + i + "].areaHa", pins.get(i).areaHa(), new Expected.Decimal());
    }
    for (int i = 0; i < inputs.size(); i++) {
      body.required(
          "inputs[" + i + "].generation",
          inputs.get(i).generation(),
          JsonBody.oneOf(Generation.class));
    }
    fields.check(body);
  }

  /** The inputs of every generation, common practice where nothing else is given. */
  public PlanInputs planInputs() {
    Map<Generation, SeedInputs> byGeneration =
        new EnumMap<>(PlanInputs.commonPractice().byGeneration());
    Map<String, SeedInputs> bySeed = new HashMap<>();
    for (Inputs one : inputs) {
      if (one.seedId() == null) {
        byGeneration.compute(one.generation(), (generation, usual) -> one.over(usual));
      }
    }
    for (Inputs one : inputs) {
      if (one.seedId() != null) {
        bySeed.put(one.seedId(), one.over(byGeneration.get(one.generation())));
      }
    }
    return new PlanInputs(byGeneration, bySeed);
  }

  /** The same with other choices of fields. */
  public PlanDefinition withFields(FieldChoices chosen) {
    return new PlanDefinition(
        firstYear, lastYear, level, demands, limits, pins, leftOutLots, inputs, chosen);
  }

  /** A question of demand alone, over the harvests that it is of. */
  public static PlanDefinition of(List<Wanted> demands, int firstYear) {
    IntSummaryStatistics years = demands.stream().mapToInt(Wanted::year).summaryStatistics();
    int first = demands.isEmpty() ? firstYear : Math.min(firstYear, years.getMin());
    int last = demands.isEmpty() ? first + 1 : Math.max(first + 1, years.getMax());
    return new PlanDefinition(first, last, null, demands, null, null, null, null, null);
  }

  /** The same with other demand; it goes on as far as that does. */
  public PlanDefinition withDemands(List<Wanted> wanted) {
    int last = wanted.stream().mapToInt(Wanted::year).max().orElse(lastYear);
    return new PlanDefinition(
        firstYear,
        Math.max(lastYear, last),
        level,
        wanted,
        limits,
        pins,
        leftOutLots,
        inputs,
        fields);
  }

  /** The hybrids that are wanted, each once. */
  Stream<String> hybridIds() {
    return demands.stream().map(Wanted::hybridId).distinct();
  }

  /** The question as it is planned. */
  PlanTask.Question question() {
    List<SeedDemand> wanted = new ArrayList<>();
    for (Wanted one : demands) {
      double expected = one.expectedTonnes();
      wanted.add(
          new SeedDemand(
              one.hybridId(),
              one.year(),
              spread(
                  "demands.tonnes",
                  or(one.lowTonnes(), expected),
                  expected,
                  or(one.highTonnes(), expected)),
              or(one.weight(), 1)));
    }
    return new PlanTask.Question(
        firstYear,
        lastYear,
        planInputs(),
        wanted,
        level == null ? SeedDemand.Level.EXPECTED : level,
        limits.stream()
            .map(
                one ->
                    new AreaLimit(Optional.ofNullable(one.generation()), one.year(), one.mostHa()))
            .toList(),
        pins.stream().map(one -> new PinnedArea(one.seedId(), one.year(), one.areaHa())).toList());
  }
}
