package org.kornspur.processors.plan.field;

import java.util.List;
import java.util.Optional;
import org.kornspur.contract.FieldCropDeclared;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.ground.Area;
import org.kornspur.processors.ground.GeoPosition;
import org.kornspur.processors.ground.Outline;
import org.kornspur.processors.ground.Plot;
import org.kornspur.processors.standards.Rulebook;

/**
 * A stand of rye on a field: planned, declared, or seen.
 *
 * @param plot as the gates know it
 * @param areaHa of its outline, hectares
 * @param seedCrop what it must itself be kept from; empty for what is no seed crop
 * @param planned what a plan puts there; empty for what is on record
 */
public record RyeStand(
    Plot plot,
    Outline outline,
    double areaHa,
    Optional<SeedCropRules> seedCrop,
    Optional<Placement> planned) {

  /** A declaration with the book that it names. */
  public record SeedCropRules(FieldCropDeclared declared, Rulebook rulebook) {}

  /** What is on record, or as a person declares it. */
  public static RyeStand known(Plot plot, Optional<SeedCropRules> seedCrop) {
    Outline outline = Outline.ofPositions(plot.outline());
    return new RyeStand(plot, outline, Area.hectares(outline), seedCrop, Optional.empty());
  }

  /** What a plan puts on a field; it takes the whole of it, as far as pollen goes. */
  public static RyeStand planned(Placement placement) {
    PlannedCrop crop = placement.crop();
    KnownField field = placement.field();
    FieldCropDeclared declared = crop.declaredOn(field.name(), field.outline());
    List<GeoPosition> corners = field.outline().corners();
    return new RyeStand(
        new Plot(
            Subject.crop(
                crop.seedId() + "/" + field.name().enterpriseId() + "/" + field.name().fieldId()),
            crop.year(),
            corners,
            Optional.of(crop.pollenId()),
            Optional.empty(),
            Optional.empty(),
            Optional.empty(),
            declared.getHeader().getFactId(),
            Optional.empty(),
            Optional.empty(),
            Optional.empty()),
        field.outline(),
        field.areaHa(),
        Optional.of(new SeedCropRules(declared, crop.rulebook())),
        Optional.of(placement));
  }
}
