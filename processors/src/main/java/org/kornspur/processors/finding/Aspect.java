package org.kornspur.processors.finding;

import java.util.Optional;
import org.kornspur.contract.InspectedPart;
import org.kornspur.contract.PostControlMethod;
import org.kornspur.ingest.statement.Value.Fact;
import org.kornspur.processors.standards.Quantity;

/** Which of several verdicts of one gate it is. */
public sealed interface Aspect extends Finding {
  record Visit(int visit) implements Aspect {}

  record AllVisits() implements Aspect {}

  record EachVisit() implements Aspect {}

  record PartByArea(InspectedPart part, Optional<Integer> visit) implements Aspect {}

  record PartByPlants(InspectedPart part, Optional<Integer> visit) implements Aspect {}

  record InFlower() implements Aspect {}

  record PollenParent() implements Aspect {}

  record PollenParentAtHarvest() implements Aspect {}

  record PlantsInFlower() implements Aspect {}

  record BaggedEars() implements Aspect {}

  record Kind(Quantity what) implements Aspect {}

  record Sample(String sample, Fact fact) implements Aspect {}

  record Conditioning(Fact fact) implements Aspect {}

  record AllMovements() implements Aspect {}

  record Ancestors() implements Aspect {}

  record Origins() implements Aspect {}

  record OrderOfDays() implements Aspect {}

  record DaysOfTests() implements Aspect {}

  record YearOfHarvest() implements Aspect {}

  record DayOfHarvest() implements Aspect {}

  record DayOfSowing() implements Aspect {}

  record StockByDay() implements Aspect {}

  record DaysOfPlots() implements Aspect {}

  record YearOfVisits() implements Aspect {}

  record DaysOfVisits() implements Aspect {}

  record AreaSown() implements Aspect {}

  record OneGround() implements Aspect {}

  record LabelNumbers() implements Aspect {}

  record CountedOtherwise() implements Aspect {}

  record Rulebook() implements Aspect {}

  record Category() implements Aspect {}

  record Component() implements Aspect {}

  record Corrections() implements Aspect {}

  record Makers() implements Aspect {}

  record ContractLimits() implements Aspect {}

  record Identity(PostControlMethod method, String test) implements Aspect {}

  record PostControl(Quantity what, PostControlMethod method, String test) implements Aspect {}

  record PartOfLot() implements Aspect {}

  record Reading() implements Aspect {}

  record Judging(String part) implements Aspect {}
}
