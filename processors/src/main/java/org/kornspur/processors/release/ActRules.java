package org.kornspur.processors.release;

import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.kornspur.contract.ActKind;
import org.kornspur.contract.Category;
import org.kornspur.contract.Condemnation;
import org.kornspur.ingest.contract.CategoryRank;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.dossier.Material;
import org.kornspur.processors.release.LotRelease.Step;
import org.kornspur.processors.verdict.Verdict;

/**
 * Which act may follow on what.
 *
 * <p>Source: 21 CFR 11.10(f), operational system checks to enforce permitted sequencing of steps
 * and events. The sequence itself is common practice, no source.
 */
public final class ActRules {

  private ActRules() {}

  /** An act that somebody wants to sign. */
  public sealed interface Wish {

    ActKind kind();

    record ToRelease() implements Wish {
      @Override
      public ActKind kind() {
        return ActKind.RELEASE;
      }
    }

    /** A suspension; of a condemned lot only where it corrects that condemnation. */
    record ToSuspend(Optional<String> corrects) implements Wish {
      @Override
      public ActKind kind() {
        return ActKind.SUSPEND;
      }
    }

    record ToCondemn() implements Wish {
      @Override
      public ActKind kind() {
        return ActKind.CONDEMN;
      }
    }

    record ToDowngrade(Category to) implements Wish {
      @Override
      public ActKind kind() {
        return ActKind.DOWNGRADE;
      }
    }
  }

  /**
   * Why a person may not sign this now, with what to do instead; empty where it may be signed.
   *
   * @param signerId the person
   */
  public static Optional<String> refusal(ReleaseSheet sheet, Wish wish, String signerId) {
    if (sheet.dossier().subject().kind() == Subject.Kind.CROP
        && !(wish instanceof Wish.ToCondemn)) {
      return Optional.of("A crop is condemned or not; only lots are released. Sign for its lots.");
    }
    if (wish instanceof Wish.ToRelease) {
      return release(sheet, signerId);
    }
    if (wish instanceof Wish.ToSuspend suspend) {
      return suspend(sheet, suspend);
    }
    if (wish instanceof Wish.ToDowngrade downgrade) {
      return downgrade(sheet, downgrade.to());
    }
    return condemnations(sheet).isEmpty()
        ? Optional.empty()
        : Optional.of(name(sheet) + " is condemned already, by act " + condemned(sheet) + ".");
  }

  private static Optional<String> release(ReleaseSheet sheet, String signerId) {
    LotRelease now = sheet.release();
    if (now.step() == Step.CONDEMNED) {
      return Optional.of(
          name(sheet)
              + " is condemned by act "
              + condemned(sheet)
              + " and cannot be released. If that was a mistake, correct the condemnation by a"
              + " suspension first.");
    }
    if (!sheet.assessment().isFit()) {
      return Optional.of(
          name(sheet)
              + " is "
              + sheet.assessment().standing()
              + ", and only what is FIT is released. "
              + against(sheet.assessment()));
    }
    if (now.step() == Step.RELEASED) {
      return Optional.of(
          name(sheet)
              + " is released already, by "
              + signers(now)
              + ". Nothing is to be done; the history of acts shows it.");
    }
    if (now.step() == Step.PROPOSED && now.signatures().get(0).signerId().equals(signerId)) {
      return Optional.of(
          "You have signed this release already, and two different persons must. Ask a colleague"
              + " with the right to release to sign the same sheet.");
    }
    return Optional.empty();
  }

  private static Optional<String> suspend(ReleaseSheet sheet, Wish.ToSuspend wish) {
    LotRelease now = sheet.release();
    if (now.step() == Step.CONDEMNED) {
      return wish.corrects().filter(condemnations(sheet)::contains).isPresent()
          ? Optional.empty()
          : Optional.of(
              name(sheet)
                  + " is condemned. If that was a mistake, name the condemnation that the"
                  + " suspension corrects: "
                  + condemned(sheet)
                  + ".");
    }
    if (wish.corrects().isPresent()) {
      return Optional.of(
          "Act "
              + wish.corrects().get()
              + " is no condemnation of "
              + name(sheet)
              + " that stands. Only such a one is corrected by a suspension; leave corrects out"
              + " otherwise.");
    }
    boolean byAct =
        now.signatures().stream().anyMatch(act -> act.kind().equals(ActKind.SUSPEND.name()));
    if (now.step() == Step.NONE) {
      return Optional.of(name(sheet) + " is not released, so there is nothing to suspend.");
    }
    return now.step() == Step.SUSPENDED && byAct
        ? Optional.of(name(sheet) + " is suspended already, by " + signers(now) + ".")
        : Optional.empty();
  }

  private static Optional<String> downgrade(ReleaseSheet sheet, Category to) {
    if (sheet.release().step() == Step.CONDEMNED) {
      return Optional.of(
          name(sheet) + " is condemned by act " + condemned(sheet) + "; it has no category.");
    }
    Optional<Category> now = sheet.assessment().material().map(Material::category);
    if (now.isEmpty()) {
      return Optional.of(
          "Which category "
              + name(sheet)
              + " holds cannot be told, because no fact says where it came from. Record its"
              + " origin first.");
    }
    return CategoryRank.isLower(to, now.get())
        ? Optional.empty()
        : Optional.of(
            name(sheet)
                + " holds the category "
                + now.get()
                + ", and "
                + to
                + " is not below it. Seed is put into a lower category, never a higher one.");
  }

  /** The condemnations that stand, by id. */
  private static List<String> condemnations(ReleaseSheet sheet) {
    return sheet.dossier().facts(Condemnation.class).stream()
        .map(condemnation -> condemnation.getHeader().getFactId())
        .toList();
  }

  private static String condemned(ReleaseSheet sheet) {
    return String.join(", ", condemnations(sheet));
  }

  private static String against(Assessment assessment) {
    Stream<String> own =
        assessment.verdicts().stream()
            .filter(verdict -> !(verdict instanceof Verdict.Met))
            .sorted(java.util.Comparator.comparing(verdict -> verdict instanceof Verdict.Owed))
            .map(Verdict::sentence);
    Stream<String> inherited =
        assessment.inherited().stream()
            .map(trouble -> "Inherited from " + trouble.origin() + ": " + trouble.sentence());
    return Stream.concat(own, inherited).findFirst().orElse("See its gates.");
  }

  private static String signers(LotRelease release) {
    return release.signatures().stream()
        .map(act -> "person " + act.signerId() + " on " + act.signedAt())
        .reduce((one, other) -> one + " and " + other)
        .orElse("nobody");
  }

  private static String name(ReleaseSheet sheet) {
    Subject subject = sheet.dossier().subject();
    return (subject.kind() == Subject.Kind.CROP ? "Crop " : "Lot ") + subject.id();
  }
}
