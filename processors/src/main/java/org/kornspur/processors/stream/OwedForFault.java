package org.kornspur.processors.stream;

import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.intake.Problem;
import org.kornspur.processors.judging.Standing;
import org.kornspur.processors.judging.Standing.State;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.processors.verdict.Verdict;

/**
 * Standings of dossiers that could not be read or judged whole. A fault never makes a standing
 * better: what was found not fit stays so, all else is owed.
 */
final class OwedForFault {
  private static final String ASPECT = "fault";

  private OwedForFault() {}

  /**
   * The standing by what could be read, with the rest owed besides; empty for what has none.
   *
   * @param judged standing by what could be read
   * @param what what cannot be read and what to do
   */
  static Optional<Standing> besides(Subject subject, Optional<Standing> judged, String what) {
    if (!hasStanding(subject)) {
      return Optional.empty();
    }
    Standing rest = judged.orElseGet(() -> bare(subject, State.EVIDENCE_OWED, List.of()));
    return Optional.of(
        new Standing(
            subject,
            worst(rest.state()),
            rest.material(),
            rest.rulebook(),
            Stream.concat(
                    rest.verdicts().stream(),
                    Stream.of(owed("Of the dossier of " + subject + ", " + what)))
                .toList(),
            rest.inherited(),
            rest.heldKg(),
            rest.givenOutKg(),
            rest.holder(),
            rest.parents(),
            rest.release(),
            rest.customersKg(),
            rest.floweringFrom(),
            rest.floweringTo()));
  }

  /**
   * A standing that says no more than that judging failed; empty for what has none.
   *
   * @param judged standing that was found, but could not be sent
   */
  static Optional<Standing> insteadOf(
      Subject subject, Optional<Standing> judged, RuntimeException fault) {
    if (!hasStanding(subject)) {
      return Optional.empty();
    }
    State state = judged.map(standing -> worst(standing.state())).orElse(State.EVIDENCE_OWED);
    String sentence =
        "The dossier of "
            + subject
            + " could not be judged: "
            + Problem.described(fault.toString())
            + ". Tell whoever keeps the program; the log has the details.";
    return Optional.of(bare(subject, state, List.of(owed(sentence))));
  }

  private static boolean hasStanding(Subject subject) {
    return subject.kind() == Subject.Kind.LOT || subject.kind() == Subject.Kind.CROP;
  }

  private static State worst(State state) {
    return state == State.NOT_FIT ? State.NOT_FIT : State.EVIDENCE_OWED;
  }

  private static Verdict owed(String sentence) {
    return new Verdict.Owed(
        Gate.ORIGIN,
        ASPECT,
        "a dossier that can be read and judged",
        Optional.empty(),
        List.of(),
        sentence);
  }

  private static Standing bare(Subject subject, State state, List<Verdict> verdicts) {
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
        Optional.empty());
  }
}
