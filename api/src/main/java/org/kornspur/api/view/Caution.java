package org.kornspur.api.view;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.eclipse.microprofile.openapi.annotations.media.Schema;
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

  /** What a caution is about. */
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
  static List<Caution> of(LotStanding standing, Treatment treatment) {
    List<Caution> cautions = new ArrayList<>();
    cautions.add(
        new Caution(
            About.AUTHORITY,
            "This is a reckoning from recorded facts. The certification authority decides, and"
                + " release is the act of a named person."));
    if (Subject.parse(standing.getSubject()).kind() == Subject.Kind.LOT) {
      cautions.add(
          new Caution(
              About.SAMPLING_AND_TESTING,
              "Results count for certification only where an accredited sampler drew the sample"
                  + " and an accredited laboratory tested it."));
      if (mayHoldErgot(standing)) {
        cautions.add(
            new Caution(
                About.ERGOT,
                "Ergot is poisonous to people and animals. Clean the lot, and keep screenings out"
                    + " of food and feed."));
      }
    }
    ofTreatment(treatment).ifPresent(cautions::add);
    ofRelease(standing.getRelease()).ifPresent(cautions::add);
    return cautions;
  }

  private static Optional<Caution> ofRelease(LotRelease release) {
    if (release == null || release.getDispatchedUnreleasedKg() <= 0) {
      return Optional.empty();
    }
    return Optional.of(
        new Caution(
            About.NOT_RELEASED,
            "%s kg left for customers while no person had released the lot. Find out by whose word,"
                    .formatted(plain(release.getDispatchedUnreleasedKg()))
                + " and hold or call back what should not have gone."));
  }

  private static String plain(double kg) {
    return java.math.BigDecimal.valueOf(kg).stripTrailingZeros().toPlainString();
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

  private static Optional<Caution> ofTreatment(Treatment treatment) {
    if (treatment instanceof Treatment.With with) {
      return Optional.of(
          new Caution(
              About.TREATED_SEED,
              "Treated with "
                  + with.treatment()
                  + ". Treated seed is never food or feed; mind the label when handling it."));
    }
    if (treatment instanceof Treatment.Unknown) {
      return Optional.of(
          new Caution(
              About.TREATED_SEED,
              "Whether this seed was treated could not be looked up just now; handle it as"
                  + " treated, which is never food or feed."));
    }
    return Optional.empty();
  }
}
