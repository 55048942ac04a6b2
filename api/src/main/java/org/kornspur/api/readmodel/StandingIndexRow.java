package org.kornspur.api.readmodel;

import java.time.Instant;
import java.time.LocalDate;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.function.UnaryOperator;
import java.util.stream.Stream;
import org.kornspur.api.text.FirstReason;
import org.kornspur.api.text.VerdictWords;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.dossier.InheritedFinding;
import org.kornspur.processors.dossier.Material;
import org.kornspur.processors.finding.GerminationFinding;
import org.kornspur.processors.stream.StandingRecords;
import org.kornspur.standing.InheritedTrouble;
import org.kornspur.standing.LotStanding;
import org.kornspur.standing.ReleaseStep;
import org.kornspur.standing.SeedMaterial;
import org.kornspur.standing.StandingState;
import org.kornspur.standing.VerdictState;

/**
 * What a list shows of one crop or lot.
 *
 * @param state fit, not fit, or evidence owed
 * @param release how far persons have released it; NONE for a crop
 * @param reason the first thing that is wrong or owed, or that all is met
 * @param material what it is; empty while its origin is unknown
 * @param rulebook title and edition
 * @param notMet gates that are not met, own and inherited, by name
 * @param owed gates that evidence is owed for, own and inherited, by name
 * @param heldKg mass that came in, kilograms
 * @param givenOutKg mass that went out, kilograms
 * @param holder enterprise
 * @param rawHarvest whether all of a lot came from fields
 * @param germinationUntil last day on which the germination test of a fit lot counts; empty where
 *     none is told
 * @param changedAt when the processors last wrote it
 */
public record StandingIndexRow(
    Subject subject,
    StandingState state,
    ReleaseStep release,
    FirstReason reason,
    Optional<SeedMaterial> material,
    Optional<String> rulebook,
    List<String> notMet,
    List<String> owed,
    double heldKg,
    double givenOutKg,
    Optional<String> holder,
    boolean rawHarvest,
    Optional<LocalDate> germinationUntil,
    Instant changedAt) {

  /**
   * The row of a standing.
   *
   * @param shared gives a word as many rows hold it
   */
  static StandingIndexRow of(
      LotStanding standing, Instant changedAt, UnaryOperator<String> shared) {
    return new StandingIndexRow(
        Subject.parse(standing.getSubject()),
        standing.getState(),
        standing.getRelease() == null ? ReleaseStep.NONE : standing.getRelease().getStep(),
        FirstReason.of(standing),
        Optional.ofNullable(standing.getMaterial()),
        Optional.ofNullable(standing.getRulebook()).map(shared),
        gates(standing, VerdictState.NOT_MET, InheritedFinding.Weight.CONDEMNS, shared),
        gates(standing, VerdictState.OWED, InheritedFinding.Weight.OWED, shared),
        standing.getHeldKg(),
        standing.getGivenOutKg(),
        Optional.ofNullable(standing.getHolder()).map(shared),
        isRawHarvest(standing),
        germinationUntil(standing),
        changedAt);
  }

  private static boolean isRawHarvest(LotStanding standing) {
    return !standing.getParents().isEmpty()
        && standing.getParents().stream()
            .allMatch(parent -> Subject.parse(parent).kind() == Subject.Kind.CROP);
  }

  private static Optional<LocalDate> germinationUntil(LotStanding standing) {
    return standing.getState() == StandingState.FIT
        ? standing.getVerdicts().stream()
            .map(verdict -> GerminationFinding.CountsUntil.in(VerdictWords.findings(verdict)))
            .flatMap(Optional::stream)
            .min(Comparator.naturalOrder())
        : Optional.empty();
  }

  private static List<String> gates(
      LotStanding standing,
      VerdictState state,
      InheritedFinding.Weight weight,
      UnaryOperator<String> shared) {
    Stream<String> own =
        standing.getVerdicts().stream()
            .filter(verdict -> verdict.getState() == state)
            .map(verdict -> verdict.getGate());
    Stream<String> inherited =
        standing.getInherited().stream()
            .filter(trouble -> StandingRecords.weighs(trouble, weight))
            .map(InheritedTrouble::getGate);
    return Stream.concat(own, inherited).distinct().map(shared).toList();
  }

  /** The hybrid whose F1 seed is grown in it; empty for every other crop, and for a lot. */
  Optional<String> hybridOfF1Crop() {
    return material
        .filter(seed -> subject.kind() == Subject.Kind.CROP)
        .filter(seed -> seed.getKind().equals(Material.Kind.F1_SEED.name()))
        .map(SeedMaterial::getHybridId);
  }

  /** Seed in store, kilograms; negative where more went out than came in. */
  public double leftKg() {
    return heldKg - givenOutKg;
  }

  /** Where the state stands when the worst comes first. */
  public int urgency() {
    return switch (state) {
      case NOT_FIT -> 0;
      case EVIDENCE_OWED -> 1;
      case UNKNOWN -> 2;
      case FIT -> 3;
    };
  }
}
