package org.kornspur.api.web.record;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.kornspur.api.query.RequestWords;
import org.kornspur.api.query.StandingHeadlines;
import org.kornspur.api.text.VerdictWords;
import org.kornspur.api.web.form.PreviewLine;
import org.kornspur.api.web.form.PreviewLine.Weight;
import org.kornspur.api.web.record.FactPreview.StandingLine;
import org.kornspur.processors.dossier.InheritedFinding;
import org.kornspur.processors.judging.StandingPreview;
import org.kornspur.processors.stream.StandingRecords;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.standing.GateVerdict;
import org.kornspur.standing.InheritedTrouble;
import org.kornspur.standing.LotStanding;
import org.kornspur.standing.VerdictState;

/** Says how crops and lots would stand: what changes, and what the work itself is judged by. */
record StandingLines(RequestWords words, StandingHeadlines headlines) {
  private static final int MOST_VERDICTS = 8;

  /** Gates that the work itself is judged by, told even where the fact changes nothing of them. */
  private static final Set<String> OF_THE_WORK =
      Set.of(
          Gate.MASS_BALANCE.name(),
          Gate.BLEND_SHARE.name(),
          Gate.SAMPLING.name(),
          Gate.LOT_SIZE.name());

  StandingLine line(StandingPreview.Change change) {
    Optional<LotStanding> before = change.before().map(StandingRecords::publicForm);
    Optional<LotStanding> after = change.after().map(StandingRecords::publicForm);
    Map<String, VerdictState> states = new HashMap<>();
    before.ifPresent(now -> now.getVerdicts().forEach(one -> states.put(key(one), one.getState())));
    return new StandingLine(
        headlines.name(change.subject()),
        before.map(LotStanding::getState),
        after.map(LotStanding::getState),
        after.map(then -> told(then, before, states)).orElse(List.of()));
  }

  /** What is wrong first. */
  private List<PreviewLine> told(
      LotStanding then, Optional<LotStanding> before, Map<String, VerdictState> states) {
    Set<String> inheritedBefore =
        before.stream()
            .flatMap(now -> now.getInherited().stream())
            .map(StandingLines::key)
            .collect(Collectors.toSet());
    Stream<PreviewLine> inherited =
        then.getInherited().stream()
            .filter(one -> !inheritedBefore.contains(key(one)))
            .filter(one -> StandingRecords.weighs(one, InheritedFinding.Weight.CONDEMNS))
            .map(
                one ->
                    new PreviewLine(
                        words.terms().gate(one.getGate()), words.verdicts().line(one), Weight.BAD));
    Stream<PreviewLine> own =
        Stream.of(VerdictState.NOT_MET, VerdictState.OWED, VerdictState.MET)
            .flatMap(state -> then.getVerdicts().stream().filter(one -> one.getState() == state))
            .filter(one -> isTold(one, states))
            .map(this::verdict);
    return Stream.concat(inherited, own).limit(MOST_VERDICTS).toList();
  }

  private static String key(InheritedTrouble trouble) {
    return trouble.getGate() + " " + trouble.getAspect() + " " + trouble.getOrigin();
  }

  /** That new seed has no test yet goes without saying. */
  private static boolean isTold(GateVerdict verdict, Map<String, VerdictState> before) {
    boolean isWork = OF_THE_WORK.contains(verdict.getGate());
    boolean isNew = before.get(key(verdict)) != verdict.getState();
    return isWork || isNew && (!before.isEmpty() || verdict.getState() == VerdictState.NOT_MET);
  }

  private static String key(GateVerdict verdict) {
    return verdict.getGate() + " " + verdict.getAspect();
  }

  private PreviewLine verdict(GateVerdict verdict) {
    VerdictWords verdicts = words.verdicts();
    return new PreviewLine(
        words.terms().gate(verdict.getGate()),
        verdicts.line(verdict),
        switch (verdict.getState()) {
          case MET -> Weight.GOOD;
          case OWED -> Weight.OWED;
          case NOT_MET, UNKNOWN -> Weight.BAD;
        });
  }
}
