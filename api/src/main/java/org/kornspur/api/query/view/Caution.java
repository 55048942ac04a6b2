package org.kornspur.api.query.view;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.eclipse.microprofile.openapi.annotations.media.Schema;
import org.kornspur.api.text.ReaderWords;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.standing.GateVerdict;
import org.kornspur.standing.LotRelease;
import org.kornspur.standing.LotStanding;
import org.kornspur.standing.VerdictState;

/**
 * What a person must bear in mind before acting on a standing.
 *
 * @param about a word for programs
 * @param sentence for a person
 */
@Schema(description = "What a person must bear in mind before acting on a standing")
public record Caution(
    @Schema(
            enumeration = {
              "AUTHORITY",
              "SAMPLING_AND_TESTING",
              "ERGOT",
              "TREATED_SEED",
              "NOT_RELEASED"
            })
        About about,
    String sentence) {

  public enum About {
    AUTHORITY,
    SAMPLING_AND_TESTING,
    ERGOT,
    TREATED_SEED,
    NOT_RELEASED
  }

  /** Whether a lot was treated, as far as it could be found out. */
  public sealed interface Treatment {

    /** No conditioning fact names a treatment. */
    record None() implements Treatment {}

    /** Treated with this, as on its label. */
    record With(String treatment) implements Treatment {}

    /** It could not be found out now. */
    record Unknown() implements Treatment {}
  }

  /** The cautions that apply to a crop or lot. */
  static List<Caution> of(LotStanding standing, Treatment treatment, ReaderWords words) {
    List<Caution> cautions = new ArrayList<>();
    cautions.add(new Caution(About.AUTHORITY, words.caution("authority")));
    if (Subject.parse(standing.getSubject()).kind() == Subject.Kind.LOT) {
      cautions.add(new Caution(About.SAMPLING_AND_TESTING, words.caution("sampling-and-testing")));
      if (mayHoldErgot(standing)) {
        cautions.add(new Caution(About.ERGOT, words.caution("ergot")));
      }
    }
    ofTreatment(treatment, words).ifPresent(cautions::add);
    Optional.ofNullable(standing.getRelease())
        .ifPresent(release -> cautions.addAll(ofRelease(release, words)));
    return cautions;
  }

  private static List<Caution> ofRelease(LotRelease release, ReaderWords words) {
    List<Caution> cautions = new ArrayList<>();
    if (release.getDispatchedUnreleasedKg() > 0) {
      cautions.add(notReleased("not-released", release.getDispatchedUnreleasedKg(), words));
    }
    if (release.getUsedUnreleasedKg() > 0) {
      cautions.add(notReleased("used-unreleased", release.getUsedUnreleasedKg(), words));
    }
    return cautions;
  }

  private static Caution notReleased(String what, double massKg, ReaderWords words) {
    String mass = words.reader().form().kg(massKg);
    return new Caution(About.NOT_RELEASED, words.caution(what, "mass", mass));
  }

  /** Unless it was looked for and none was found. */
  private static boolean mayHoldErgot(LotStanding standing) {
    return standing.getVerdicts().stream()
        .filter(verdict -> verdict.getGate().equals("ERGOT"))
        .anyMatch(Caution::isNotClean);
  }

  private static boolean isNotClean(GateVerdict verdict) {
    return verdict.getState() != VerdictState.MET
        || verdict.getMeasured() == null
        || verdict.getMeasured().getValue() > 0;
  }

  private static Optional<Caution> ofTreatment(Treatment treatment, ReaderWords words) {
    if (treatment instanceof Treatment.With with) {
      return Optional.of(
          new Caution(About.TREATED_SEED, words.caution("treated", "treatment", with.treatment())));
    }
    return treatment instanceof Treatment.Unknown
        ? Optional.of(new Caution(About.TREATED_SEED, words.caution("treated-unknown")))
        : Optional.empty();
  }
}
