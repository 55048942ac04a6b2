package org.kornspur.processors.release;

import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import org.kornspur.contract.Category;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.statement.Coded;
import org.kornspur.ingest.statement.Value.Person;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.dossier.Material;
import org.kornspur.processors.finding.Aspect;
import org.kornspur.processors.finding.Fault;
import org.kornspur.processors.finding.ReleaseFinding;
import org.kornspur.processors.release.LotRelease.Step;
import org.kornspur.processors.verdict.Gate;

/**
 * What a lot's release has come to: persons' acts in the order of their signing, held against the
 * facts that came since. A function of the set of facts.
 */
public final class ReleaseDecision {

  private ReleaseDecision() {}

  /**
   * The release of a lot, and what the gates say of it.
   *
   * @param assessment as it was given, with a fault more where the release could not be told
   * @param release empty for what is no lot, and for a lot of which there is nothing to say
   */
  public record Decided(Assessment assessment, Optional<LotRelease> release) {}

  /**
   * Decides, and throws nothing: a release that cannot be told is held back, and the lot waits for
   * evidence.
   *
   * @param now what the gates say of the whole dossier
   * @param assess what they say of any part of it
   */
  public static Decided decide(
      Dossier dossier, Assessment now, Function<Dossier, Assessment> assess) {
    try {
      return new Decided(now, of(dossier, now, assess));
    } catch (RuntimeException | StackOverflowError broken) {
      Fault fault =
          new Fault(
              Gate.ORIGIN,
              "release",
              Optional.of(new Aspect.Judging("release").coded()),
              acts(dossier),
              broken);
      return new Decided(
          now.with(fault), Optional.of(LotRelease.untold(fault.verdict().findings().get(0))));
    }
  }

  private static List<String> acts(Dossier dossier) {
    return dossier
        .counting()
        .filter(fact -> FactType.of(fact).isAct())
        .map(FactType::idOf)
        .toList();
  }

  /**
   * The release of a lot.
   *
   * @param now what the gates say of the whole dossier
   * @param assess what they say of any part of it
   * @return empty for what is no lot, and for a lot of which there is nothing to say
   */
  private static Optional<LotRelease> of(
      Dossier dossier, Assessment now, Function<Dossier, Assessment> assess) {
    if (dossier.subject().kind() != Subject.Kind.LOT) {
      return Optional.empty();
    }
    return Optional.of(decided(dossier, now, assess)).filter(release -> !release.isEmpty());
  }

  private static LotRelease decided(
      Dossier dossier, Assessment now, Function<Dossier, Assessment> assess) {
    Draft draft = new Draft(dossier, SignedActHistory.of(dossier));
    SignedActHistory acts = draft.acts();
    if (acts.condemned().isPresent()) {
      SignedAct act = acts.condemned().get();
      return draft.by(
          Step.CONDEMNED, List.of(act), new ReleaseFinding.CondemnedBy(signer(act), act.reason()));
    }
    Optional<SignedAct> proposed =
        acts.proposed().filter(first -> Seal.isOver(first.signature().getSeal(), dossier, now));
    if (acts.suspended().isPresent()) {
      SignedAct act = acts.suspended().get();
      return proposed
          .map(draft::proposed)
          .orElseGet(
              () ->
                  draft.by(
                      Step.SUSPENDED,
                      List.of(act),
                      new ReleaseFinding.SuspendedBy(signer(act), act.reason())));
    }
    if (acts.released().isEmpty()) {
      return proposed.map(draft::proposed).orElseGet(draft::none);
    }
    Optional<SuspensionExplanation.Suspending> suspending =
        new SuspensionRule(dossier, last(acts.released()).signature()).suspending(now, assess);
    if (suspending.isEmpty()) {
      return draft.released();
    }
    return proposed.map(draft::proposed).orElseGet(() -> draft.suspended(suspending.get()));
  }

  private static SignedAct last(List<SignedAct> acts) {
    return acts.get(acts.size() - 1);
  }

  private static Person signer(SignedAct act) {
    return new Person(act.signature().getSignerId());
  }

  /** What is said of a release whatever its step. */
  private record Draft(Dossier dossier, SignedActHistory acts) {

    LotRelease none() {
      return with(
          Step.NONE,
          Optional.empty(),
          List.of(),
          Optional.empty(),
          List.of(),
          List.of(),
          List.of());
    }

    LotRelease released() {
      return by(Step.RELEASED, acts.released(), null);
    }

    LotRelease proposed(SignedAct first) {
      return by(Step.PROPOSED, List.of(first), null);
    }

    LotRelease suspended(SuspensionExplanation.Suspending by) {
      return with(
          Step.SUSPENDED,
          by.since().map(this::notBeforeRelease),
          acts.released(),
          Optional.of(by.why()),
          by.causes(),
          by.changes(),
          by.reasons());
    }

    /** A fact may have been recorded before the release and come in after it. */
    private Instant notBeforeRelease(Instant recordedAt) {
      Instant released = last(acts.released()).signature().getSignedAt();
      return recordedAt.isBefore(released) ? released : recordedAt;
    }

    LotRelease by(Step step, List<SignedAct> signed, ReleaseFinding why) {
      return with(
          step,
          Optional.of(last(signed).signature().getSignedAt()),
          signed,
          Optional.ofNullable(why).map(ReleaseFinding::coded),
          List.of(),
          List.of(),
          List.of());
    }

    private LotRelease with(
        Step step,
        Optional<Instant> since,
        List<SignedAct> signed,
        Optional<Coded> why,
        List<String> causes,
        List<LotRelease.Change> changes,
        List<SuspensionReason> reasons) {
      return new LotRelease(
          step,
          since,
          signed.stream().map(SignedAct::signed).toList(),
          signed.isEmpty() ? 1 : last(signed).signature().getSignaturesNeeded(),
          why,
          causes,
          changes,
          downgradedFrom(),
          acts.dispatchedUnreleasedKg(dossier),
          acts.usedUnreleasedKg(dossier),
          reasons);
    }

    private Optional<Category> downgradedFrom() {
      Optional<Category> now = dossier.material().map(Material::category);
      return dossier
          .materialAsMade()
          .map(Material::category)
          .filter(made -> now.isPresent() && made != now.get());
    }
  }
}
