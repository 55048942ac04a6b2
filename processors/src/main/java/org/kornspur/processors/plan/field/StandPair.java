package org.kornspur.processors.plan.field;

import java.util.Optional;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.statement.Value.Amount;
import org.kornspur.processors.dossier.PollenNearby;
import org.kornspur.processors.ground.OutlineDistance;
import org.kornspur.processors.standards.Limit;

/**
 * A crop of a plan and one other stand of rye in the same year, with the distance between them.
 *
 * @param here the crop on its field
 * @param separation from the crop to the other
 * @param commonHa ground that both have, hectares
 */
record StandPair(RyeStand here, RyeStand other, OutlineDistance separation, double commonHa) {
  /** Outlines of neighbours are drawn over each other by so much; common practice, no source. */
  private static final double DRAWN_AMISS = 0.05;

  /** What speaks against the crop: ground that is taken, pollen that comes in, then pollen out. */
  Optional<FieldConflict> conflict(GateQuestions gates) {
    return taken()
        .or(
            () ->
                tooNear(
                    gates,
                    here,
                    other,
                    FieldConflict.TooNearPlanned::new,
                    FieldConflict.TooNear::new))
        .or(
            () ->
                tooNear(
                    gates,
                    other,
                    here,
                    FieldConflict.SpoilsPlanned::new,
                    FieldConflict.Spoils::new));
  }

  private Optional<FieldConflict> taken() {
    if (other.seedCrop().isEmpty() || isDrawnAmiss() || isDeclaredAsDecided()) {
      return Optional.empty();
    }
    return Optional.of(
        other
            .planned()
            .<FieldConflict>map(
                placed -> new FieldConflict.TakenByPlanned(seed(), field(), placed.crop().seedId()))
            .orElseGet(() -> new FieldConflict.Taken(seed(), field(), other.plot().subject())));
  }

  /** Whether the other is the crop itself, declared where a person had decided on it. */
  boolean isDeclaredAsDecided() {
    return here.planned().filter(Placement::isPinned).isPresent()
        && other.planned().isEmpty()
        && !isDrawnAmiss()
        && other
            .seedCrop()
            .filter(crop -> crop.declared().getSeedComponentId().equals(seed()))
            .isPresent();
  }

  private boolean isDrawnAmiss() {
    return commonHa <= DRAWN_AMISS * Math.min(here.areaHa(), other.areaHa());
  }

  /** A conflict with another crop of the plan. */
  private interface WithPlanned {
    FieldConflict of(
        String seedId,
        String field,
        String otherSeedId,
        String otherField,
        Amount distance,
        Amount least,
        String rulebookId);
  }

  /** A conflict with rye on record. */
  private interface WithKnown {
    FieldConflict of(
        String seedId,
        String field,
        Subject other,
        Amount distance,
        Amount least,
        String rulebookId);
  }

  /** Whether pollen of {@code source} reaches {@code crop}; one of them is this crop. */
  private Optional<FieldConflict> tooNear(
      GateQuestions gates,
      RyeStand crop,
      RyeStand source,
      WithPlanned withPlanned,
      WithKnown withKnown) {
    return broken(gates, crop, source)
        .map(
            limit ->
                other
                    .planned()
                    .map(
                        placed ->
                            withPlanned.of(
                                seed(),
                                field(),
                                placed.crop().seedId(),
                                placed.field().name().fieldId(),
                                distance(),
                                amount(limit),
                                limit.rulebookId()))
                    .orElseGet(
                        () ->
                            withKnown.of(
                                seed(),
                                field(),
                                other.plot().subject(),
                                distance(),
                                amount(limit),
                                limit.rulebookId())));
  }

  /** The distance that pollen of a source must keep from a crop, where it is nearer. */
  private Optional<Limit> broken(GateQuestions gates, RyeStand crop, RyeStand source) {
    return crop.seedCrop()
        .filter(rules -> crop.plot().isThreatenedBy(source.plot()))
        .flatMap(
            rules ->
                gates.brokenBy(
                    rules,
                    PollenNearby.of(crop.plot(), source.plot(), source.areaHa(), separation)));
  }

  private String seed() {
    return here.planned().orElseThrow().crop().seedId();
  }

  private String field() {
    return here.planned().orElseThrow().field().name().fieldId();
  }

  private Amount distance() {
    return Amount.metres(separation.distanceM());
  }

  static Amount amount(Limit limit) {
    return new Amount(limit.value(), limit.unit());
  }
}
