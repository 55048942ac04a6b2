package org.kornspur.processors.finding;

import java.time.LocalDate;
import java.util.List;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.statement.Value.Fact;

/** What to do, and what to beware of. */
public sealed interface Advice extends Finding {
  record CleanAndSample() implements Advice {}

  record DryAndSample() implements Advice {}

  record ConditionAndSample() implements Advice {}

  record StateRealGermination() implements Advice {}

  /** Another test of the same seed changes nothing. */
  record FailedForGood() implements Advice {}

  record OnlyToMultiply() implements Advice {}

  record NotAsSeed() implements Advice {}

  record RogueAndInspect(LocalDate until) implements Advice {}

  record RemoveShedding(LocalDate until) implements Advice {}

  record RemoveSheddingAndCheck(LocalDate until) implements Advice {}

  record RemoveAndInspect(LocalDate until) implements Advice {}

  record DestroySource(LocalDate until) implements Advice {}

  record SplitAndSample() implements Advice {}

  record FindWrongWeight() implements Advice {}

  record CorrectMixture() implements Advice {}

  record CorrectOrNotSo() implements Advice {}

  record StopAndTell() implements Advice {}

  record CorrectCondemnation() implements Advice {}

  record CorrectDays() implements Advice {}

  record FindWrongMovement() implements Advice {}

  record Correct(List<Fact> facts) implements Advice {}

  record CorrectMasterData(Subject hybrid, Fact fact) implements Advice {}

  record CorrectOrReport() implements Advice {}

  record Report() implements Advice {}

  record ReadAgain() implements Advice {}

  record ConfirmOrWithdraw() implements Advice {}

  record WithdrawOthers() implements Advice {}

  record CorrectRulebook() implements Advice {}

  record NeverFoodOrFeed(String treatment) implements Advice {}

  record Poisonous() implements Advice {}

  record EnterFloweringDays() implements Advice {}

  record GrowElsewhere() implements Advice {}

  record HarvestAsGrain() implements Advice {}

  record StateShareOfHybrids() implements Advice {}

  record AuthorityDecides() implements Advice {}
}
