package org.kornspur.processors.stream;

import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.finding.Advice;
import org.kornspur.processors.finding.Aspect;
import org.kornspur.processors.finding.BasisFinding;
import org.kornspur.processors.finding.Evidence;
import org.kornspur.processors.finding.Finding;
import org.kornspur.processors.judging.Standing;
import org.kornspur.processors.verdict.Fitness;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.processors.verdict.Verdict;

/**
 * Standings of dossiers that could not be read or judged whole. A fault never makes a standing
 * better: what was found not fit stays so, all else is owed.
 */
final class StandingAfterFault {
  private static final String ASPECT = "fault";

  /** Of more the number alone is told. */
  private static final int MOST_NAMED = 3;

  private StandingAfterFault() {}

  /**
   * The standing by what could be read, with the rest owed besides; empty for what has none.
   *
   * @param judged standing by what could be read
   * @param unreadable what cannot be read, by the keys of the store
   */
  static Optional<Standing> besides(
      Subject subject, Optional<Standing> judged, List<String> unreadable) {
    if (!subject.kind().isJudged()) {
      return Optional.empty();
    }
    Standing rest = judged.orElseGet(() -> bare(subject, Fitness.EVIDENCE_OWED, List.of()));
    return Optional.of(
        new Standing(
            subject,
            worst(rest.state()),
            rest.material(),
            rest.rulebook(),
            Stream.concat(
                    rest.verdicts().stream(),
                    Stream.of(owed(unreadable(unreadable), new Advice.ReadAgain())))
                .toList(),
            rest.inherited(),
            rest.heldKg(),
            rest.givenOutKg(),
            rest.holder(),
            rest.parents(),
            rest.release(),
            rest.customersKg(),
            rest.floweringFrom(),
            rest.floweringTo(),
            rest.ruleNotes()));
  }

  /**
   * A standing that says no more than that judging failed; empty for what has none.
   *
   * @param judged standing that was found, but could not be sent
   */
  static Optional<Standing> insteadOf(
      Subject subject, Optional<Standing> judged, RuntimeException fault) {
    if (!subject.kind().isJudged()) {
      return Optional.empty();
    }
    Fitness state = judged.map(standing -> worst(standing.state())).orElse(Fitness.EVIDENCE_OWED);
    Finding failed = new BasisFinding.JudgingFailed(fault.getClass().getSimpleName());
    return Optional.of(bare(subject, state, List.of(owed(failed, new Advice.Report()))));
  }

  private static Fitness worst(Fitness state) {
    return state == Fitness.NOT_FIT ? Fitness.NOT_FIT : Fitness.EVIDENCE_OWED;
  }

  private static Finding unreadable(List<String> keys) {
    Optional<Integer> further =
        keys.size() > MOST_NAMED ? Optional.of(keys.size() - MOST_NAMED) : Optional.empty();
    return new BasisFinding.Unreadable(keys.stream().limit(MOST_NAMED).toList(), further);
  }

  private static Verdict owed(Finding finding, Advice advice) {
    return new Verdict.Owed(
        Gate.ORIGIN,
        ASPECT,
        Optional.of(new Aspect.Reading().coded()),
        List.of(new Evidence.ReadableDossier().coded()),
        Optional.empty(),
        List.of(),
        List.of(finding.coded()),
        List.of(advice.coded()));
  }

  private static Standing bare(Subject subject, Fitness state, List<Verdict> verdicts) {
    return new Standing(
        subject,
        state,
        Optional.empty(),
        Optional.empty(),
        verdicts,
        List.of(),
        0,
        0,
        Optional.empty(),
        List.of(),
        Optional.empty(),
        0,
        Optional.empty(),
        Optional.empty(),
        List.of());
  }
}
