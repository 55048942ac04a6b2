package org.kornspur.api.web.fieldbook;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import org.kornspur.api.problem.ApiProblem;
import org.kornspur.api.problem.CropDetail;
import org.kornspur.api.text.PageTexts;
import org.kornspur.api.text.ReaderWords;
import org.kornspur.contract.CropRole;
import org.kornspur.contract.FieldCropDeclared;
import org.kornspur.contract.FieldInspection;
import org.kornspur.contract.InspectedPart;
import org.kornspur.ingest.problem.Given;
import org.kornspur.processors.advice.AdviceRefusedException;
import org.kornspur.processors.advice.CountTable;
import org.kornspur.processors.advice.InspectionAdvice;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.standards.Quantity;
import org.kornspur.processors.standards.Rulebook;
import org.kornspur.processors.standards.Rulebooks;

/** The plans of a crop's counts, from the advice on its inspection. */
record TallyPlans(
    InspectionAdvice.Terms terms, PageTexts texts, ReaderWords words, Rulebooks rulebooks) {
  /** A product of fractions that should be whole is not rounded up to the next square metre. */
  private static final double BY_A_HAIR = 1e-6;

  /**
   * Plans for the counts of this form, one for each limit and part.
   *
   * @throws ApiProblem where no plan can be made
   */
  List<TallyPlan> of(Dossier crop, FieldBookForm sheet) {
    FieldCropDeclared declared = crop.crop().orElseThrow();
    Rulebook rulebook =
        rulebooks
            .find(declared.getRulebookId())
            .orElseThrow(
                () ->
                    ApiProblem.refused(
                        new CropDetail.UnknownRulebook(
                            Given.text(declared.getRulebookId(), false))));
    InspectionAdvice advice;
    try {
      advice = InspectionAdvice.of(crop, rulebook, terms).orElseThrow();
    } catch (AdviceRefusedException refused) {
      throw ApiProblem.refused(refused.refusal());
    }
    int leastOfFemales =
        advice.counts().stream()
            .filter(count -> count.limit().quantity() == Quantity.SHEDDING_FEMALES_ALL_VISITS)
            .mapToInt(InspectionAdvice.Count::leastUnits)
            .max()
            .orElse(0);
    List<TallyPlan> plans = new ArrayList<>();
    for (InspectionAdvice.Count count : advice.counts()) {
      Quantity quantity = count.limit().quantity();
      if ((quantity == Quantity.FEMALE_STERILITY) == (sheet == FieldBookForm.STERILITY_CHECK)) {
        plans.add(
            plan(
                count, count.inspected(), count.unitsCounted(), count.bad(), crop, leastOfFemales));
      }
    }
    addPartsNotCountedYet(plans, advice, declared, crop, sheet);
    return List.copyOf(plans);
  }

  /** The limit holds for every part; where none of a part was counted, its count begins at 0. */
  private void addPartsNotCountedYet(
      List<TallyPlan> plans,
      InspectionAdvice advice,
      FieldCropDeclared declared,
      Dossier crop,
      FieldBookForm sheet) {
    if (sheet != FieldBookForm.INSPECTION) {
      return;
    }
    for (Quantity quantity : List.of(Quantity.OFF_TYPES_BY_PLANTS, Quantity.OFF_TYPES_BY_AREA)) {
      Set<String> counted =
          plans.stream()
              .filter(plan -> plan.quantity().equals(quantity.name()))
              .map(TallyPlan::part)
              .collect(Collectors.toSet());
      advice.counts().stream()
          .filter(count -> count.limit().quantity() == quantity)
          .findFirst()
          .ifPresent(
              count ->
                  Arrays.stream(InspectedPart.values())
                      .filter(part -> isLimited(part, declared.getRole()))
                      .filter(part -> !counted.contains(part.name()))
                      .forEach(part -> plans.add(plan(count, part, 0, 0, crop, 0))));
    }
  }

  /** In a mixture sown for F1 seed, plants of the pollen parent are no impurity. */
  private static boolean isLimited(InspectedPart part, CropRole role) {
    return role != CropRole.F1_MIXTURE || part != InspectedPart.POLLEN_PARENT;
  }

  private TallyPlan plan(
      InspectionAdvice.Count count,
      InspectedPart part,
      int units,
      int bad,
      Dossier crop,
      int leastOfFemales) {
    Quantity quantity = count.limit().quantity();
    boolean byArea = quantity == Quantity.OFF_TYPES_BY_AREA;
    double pieceM2 = byArea ? count.acceptable() / count.limit().value() : 0;
    List<int[]> rows =
        count
            .plan()
            .map(
                plan ->
                    CountTable.of(plan, terms, count.leastUnits()).stream()
                        .map(
                            row -> new int[] {row.units(), row.acceptAtMost(), row.rejectAtLeast()})
                        .toList())
            .orElse(List.of());
    return new TallyPlan(
        quantity.name(),
        part.name(),
        title(quantity, part),
        pieceM2,
        quantity == Quantity.SHEDDING_FEMALES ? lastVisit(crop) : 0,
        units,
        bad,
        leastOfVisit(count, leastOfFemales, rows),
        words.limit(count.limit()),
        words.source(count.limit()),
        count
            .fixed()
            .map(
                fixed ->
                    texts.of(
                        "fixedPlan",
                        amount(fixed.examined(), pieceM2),
                        words.reader().form().count(fixed.acceptanceNumber()),
                        words.reader().form().percent(count.fixedProducersRisk().orElseThrow()),
                        words.reader().form().percent(count.fixedConsumersRisk().orElseThrow())))
            .orElse(""),
        rows);
  }

  /**
   * The least sample of the rulebook. Where it has none, a count that is of one visit, or of every
   * visit alike, is none before a clean crop could pass by it alone; of one over all visits each
   * need only have looked.
   *
   * @param leastOfFemales least sample of flowering females, which stands under all visits together
   */
  private static int leastOfVisit(
      InspectionAdvice.Count count, int leastOfFemales, List<int[]> rows) {
    Quantity quantity = count.limit().quantity();
    int least = quantity == Quantity.SHEDDING_FEMALES ? leastOfFemales : count.leastUnits();
    if (least > 0 || quantity == Quantity.SHEDDING_FEMALES_ALL_VISITS) {
      return Math.max(1, least);
    }
    return rows.stream().filter(row -> row[1] >= 0).mapToInt(row -> row[0]).findFirst().orElse(1);
  }

  private String amount(int units, double pieceM2) {
    return pieceM2 > 0
        ? words.reader().form().number(Math.ceil(units * pieceM2 - BY_A_HAIR)) + "\u00a0m²"
        : texts.of("plants", words.reader().form().count(units));
  }

  private String title(Quantity quantity, InspectedPart part) {
    return switch (quantity) {
      case SHEDDING_FEMALES -> texts.of("sheddersThisVisit");
      case SHEDDING_FEMALES_ALL_VISITS -> texts.of("sheddersAllVisits");
      case FEMALE_STERILITY -> texts.of("sheddersAllChecks");
      default -> texts.of("offTypesIn", texts.of("partOf", part));
    };
  }

  private static int lastVisit(Dossier crop) {
    return crop.facts(FieldInspection.class).stream()
        .filter(visit -> visit.getPart() == InspectedPart.FEMALE)
        .filter(
            visit ->
                visit.getSheddingPlants() != null && visit.getPlantsInReceptiveFlower() != null)
        .mapToInt(FieldInspection::getVisit)
        .max()
        .orElse(1);
  }
}
