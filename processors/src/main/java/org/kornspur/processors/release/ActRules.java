package org.kornspur.processors.release;

import java.time.LocalDate;
import java.util.Comparator;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.Predicate;
import java.util.stream.Stream;
import org.kornspur.contract.ActKind;
import org.kornspur.contract.Category;
import org.kornspur.contract.Condemnation;
import org.kornspur.ingest.contract.CategoryRank;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.statement.Coded;
import org.kornspur.ingest.statement.Statement;
import org.kornspur.ingest.statement.Value.Fact;
import org.kornspur.ingest.statement.Value.Person;
import org.kornspur.processors.balance.MassFlow;
import org.kornspur.processors.dossier.Material;
import org.kornspur.processors.finding.ActFinding;
import org.kornspur.processors.finding.GerminationFinding;
import org.kornspur.processors.pedigree.Edge;
import org.kornspur.processors.release.LotRelease.Step;
import org.kornspur.processors.standards.Limit;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.processors.verdict.Verdict;

/**
 * Which act may follow on what.
 *
 * <p>Source: 21 CFR 11.10(f), operational system checks to enforce permitted sequencing of steps
 * and events. The sequence itself is common practice, no source.
 */
public final class ActRules {
  /** Movements after which seed is another lot's, and tested as that. */
  private static final Set<FactType> AWAY = EnumSet.of(FactType.CONDITIONING, FactType.LOT_MERGE);

  private static final int MOST_NAMED = 3;

  private ActRules() {}

  /** An act that somebody wants to sign. */
  public sealed interface Wish {
    record ToRelease() implements Wish {}

    /** A suspension; of a condemned lot only where it corrects that condemnation. */
    record ToSuspend(Optional<String> corrects) implements Wish {}

    record ToCondemn() implements Wish {}

    record ToDowngrade(Category to) implements Wish {}
  }

  /**
   * Why a person may not sign this now, with what to do instead; empty where it may be signed.
   *
   * @param signerId the person
   * @param today the day on which it would be signed
   */
  public static Optional<ActFinding> refusal(
      ReleaseSheet sheet, Wish wish, String signerId, LocalDate today) {
    if (sheet.dossier().subject().kind() == Subject.Kind.CROP
        && !(wish instanceof Wish.ToCondemn)) {
      return Optional.of(new ActFinding.CropsAreNotReleased());
    }
    if (wish instanceof Wish.ToRelease) {
      return release(sheet, signerId, today);
    }
    if (wish instanceof Wish.ToSuspend suspend) {
      return suspend(sheet, suspend);
    }
    if (wish instanceof Wish.ToDowngrade downgrade) {
      return downgrade(sheet, downgrade.to());
    }
    return condemnations(sheet).isEmpty()
        ? Optional.empty()
        : Optional.of(new ActFinding.AlreadyCondemned(subject(sheet), acts(sheet)));
  }

  /**
   * Raw harvest is fit as far as anybody asks anything of it, and no test says yet what seed it
   * gives: it is conditioned and tested before it is released. Common practice, no source.
   */
  private static Optional<ActFinding> release(
      ReleaseSheet sheet, String signerId, LocalDate today) {
    LotRelease now = sheet.release();
    if (now.step() == Step.CONDEMNED) {
      return Optional.of(new ActFinding.CondemnedNotReleased(subject(sheet), acts(sheet)));
    }
    if (!sheet.assessment().isFit()) {
      List<Coded> against = against(sheet.assessment());
      return Optional.of(
          sheet.assessment().isUnfit()
              ? new ActFinding.NotFit(subject(sheet), against)
              : new ActFinding.EvidenceOwed(subject(sheet), against));
    }
    if (sheet.dossier().isRawHarvest()) {
      return Optional.of(new ActFinding.RawHarvestNotReleased(subject(sheet)));
    }
    if (isNothingLeft(sheet)) {
      return Optional.of(new ActFinding.NothingLeft(subject(sheet), into(sheet)));
    }
    Optional<Coded> expired = expired(sheet.assessment(), today);
    if (expired.isPresent()) {
      return Optional.of(
          new ActFinding.EvidenceOwed(subject(sheet), List.of(expired.orElseThrow())));
    }
    if (now.step() == Step.RELEASED) {
      return Optional.of(new ActFinding.AlreadyReleased(subject(sheet), signatures(now)));
    }
    return now.step() == Step.PROPOSED && now.signatures().get(0).signerId().equals(signerId)
        ? Optional.of(new ActFinding.SignedAlready())
        : Optional.empty();
  }

  /**
   * Of a lot that went wholly into conditioning or a merger nobody asks anything any more, and
   * there is no seed that a release could be of. Common practice, no source.
   */
  private static boolean isNothingLeft(ReleaseSheet sheet) {
    double tolerance =
        sheet.assessment().verdicts().stream()
            .filter(verdict -> verdict.gate() == Gate.MASS_BALANCE)
            .flatMap(verdict -> verdict.limit().stream())
            .mapToDouble(Limit::value)
            .min()
            .orElse(0);
    double inKg = kilograms(sheet, flow -> flow.direction() == MassFlow.Direction.IN);
    double awayKg =
        kilograms(
            sheet, flow -> flow.direction() == MassFlow.Direction.OUT && AWAY.contains(flow.by()));
    return awayKg > 0 && awayKg >= inKg * (1 - tolerance / 100);
  }

  private static double kilograms(ReleaseSheet sheet, Predicate<MassFlow> which) {
    return sheet.dossier().massFlows().stream().filter(which).mapToDouble(MassFlow::massKg).sum();
  }

  private static List<Subject> into(ReleaseSheet sheet) {
    return sheet.dossier().edgesOut().stream()
        .filter(edge -> AWAY.contains(edge.by()))
        .map(Edge::child)
        .distinct()
        .sorted()
        .limit(MOST_NAMED)
        .toList();
  }

  private static Optional<ActFinding> suspend(ReleaseSheet sheet, Wish.ToSuspend wish) {
    LotRelease now = sheet.release();
    if (now.step() == Step.CONDEMNED) {
      return wish.corrects().filter(condemnations(sheet)::contains).isPresent()
          ? Optional.empty()
          : Optional.of(new ActFinding.NameCondemnation(subject(sheet), acts(sheet)));
    }
    if (wish.corrects().isPresent()) {
      return Optional.of(
          new ActFinding.NoSuchCondemnation(new Fact(wish.corrects().get()), subject(sheet)));
    }
    boolean byAct =
        now.signatures().stream().anyMatch(act -> act.kind().equals(ActKind.SUSPEND.name()));
    if (now.step() == Step.NONE) {
      return Optional.of(new ActFinding.NotReleased(subject(sheet)));
    }
    return now.step() == Step.SUSPENDED && byAct
        ? Optional.of(new ActFinding.AlreadySuspended(subject(sheet), signatures(now)))
        : Optional.empty();
  }

  private static Optional<ActFinding> downgrade(ReleaseSheet sheet, Category to) {
    if (sheet.release().step() == Step.CONDEMNED) {
      return Optional.of(new ActFinding.CondemnedHasNoCategory(subject(sheet), acts(sheet)));
    }
    Optional<Category> now = sheet.assessment().material().map(Material::category);
    if (now.isEmpty()) {
      return Optional.of(new ActFinding.CategoryUnknown(subject(sheet)));
    }
    return CategoryRank.isLower(to, now.get())
        ? Optional.empty()
        : Optional.of(new ActFinding.CategoryNotLower(subject(sheet), now.get(), to));
  }

  /** The condemnations that stand, by id. */
  private static List<String> condemnations(ReleaseSheet sheet) {
    return sheet.dossier().facts(Condemnation.class).stream().map(FactType::idOf).toList();
  }

  private static List<Fact> acts(ReleaseSheet sheet) {
    return Fact.each(condemnations(sheet));
  }

  /** What speaks against it first: own verdicts before inherited ones, failures before gaps. */
  private static List<Coded> against(Assessment assessment) {
    Stream<Coded> own =
        assessment.verdicts().stream()
            .filter(verdict -> !(verdict instanceof Verdict.Met))
            .sorted(Comparator.comparing(verdict -> verdict instanceof Verdict.Owed))
            .map(verdict -> verdict.findings().get(0));
    Stream<Coded> inherited =
        assessment.inherited().stream()
            .map(
                trouble ->
                    new ActFinding.Inherited(trouble.origin(), trouble.findings().get(0)).coded());
    return Stream.concat(own, inherited).limit(1).toList();
  }

  /** Evidence that counts no more for seed that goes out from today on. */
  private static Optional<Coded> expired(Assessment assessment, LocalDate today) {
    return assessment.verdicts().stream()
        .flatMap(verdict -> GerminationFinding.CountsUntil.in(verdict.findings()).stream())
        .filter(until -> until.isBefore(today))
        .map(until -> new GerminationFinding.CountsUntil(until).coded())
        .findFirst();
  }

  private static List<Statement> signatures(LotRelease release) {
    return release.signatures().stream()
        .<Statement>map(act -> new ActFinding.SignedBy(new Person(act.signerId()), act.signedAt()))
        .toList();
  }

  private static Subject subject(ReleaseSheet sheet) {
    return sheet.dossier().subject();
  }
}
