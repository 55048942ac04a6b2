package org.kornspur.processors.judging;

import java.time.LocalDate;
import java.time.Month;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.contract.FieldCropDeclared;
import org.kornspur.contract.FieldInspection;
import org.kornspur.contract.GeoPoint;
import org.kornspur.contract.Harvest;
import org.kornspur.contract.PollenSourceSeen;
import org.kornspur.contract.SenderRole;
import org.kornspur.contract.SterilityCheck;
import org.kornspur.contract.Submission;
import org.kornspur.ingest.attestation.SignedSubmissions;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.dossier.Entry;
import org.kornspur.processors.ground.GeoPosition;
import org.kornspur.processors.ground.InvalidOutline;
import org.kornspur.processors.ground.IsolationCells;
import org.kornspur.processors.ground.Outline;
import org.kornspur.processors.ground.PlaceableFacts;
import org.kornspur.processors.ground.Plot;

/**
 * The place of a crop or pollen source, from what counts last, with what is not settled beside it:
 * corrections that wait for confirmation, and what growers say. None of these takes the place of
 * another report, so none can move pollen away from a crop.
 */
public final class Plots {
  /** BBCH stage from which on rye is no longer taken for young plants. */
  private static final int STEM_ELONGATION = 30;

  private static final Month LAST_MONTH_IN_FLOWER = Month.JULY;

  private Plots() {}

  /**
   * Where a crop or source lies; empty for what is not declared or has no place.
   *
   * @throws InvalidOutline where one of the reports cannot be placed
   */
  static Optional<Plot> of(Dossier dossier) {
    List<Plot> reports =
        switch (dossier.subject().kind()) {
          case CROP -> ofCrop(dossier);
          case SOURCE -> ofSource(dossier);
          case LOT, HYBRID, ENTERPRISE -> List.of();
        };
    for (Plot plot : reports) {
      IsolationCells.cellsOf(Outline.ofPositions(plot.outline()), plot.cropYear());
    }
    return Plot.of(reports);
  }

  /** Where it lies by those facts alone that can be placed; empty where none can. */
  public static Optional<Plot> ofWhatCanBePlaced(Dossier dossier) {
    return of(dossier.of(entry -> PlaceableFacts.problemsOf(entry.fact()).isEmpty()));
  }

  private static List<Plot> ofCrop(Dossier dossier) {
    List<Plot> reports = new ArrayList<>();
    dossier.crop().ifPresent(crop -> reports.add(ofCrop(dossier, crop)));
    dossier.awaiting(FieldCropDeclared.class).forEach(crop -> reports.add(ofCrop(dossier, crop)));
    if (reports.isEmpty()) {
      withdrawnThoughSeen(dossier).ifPresent(crop -> reports.add(ofCrop(dossier, crop)));
    }
    List<Plot> seen = reports.stream().flatMap(plot -> seenInOtherYears(dossier, plot)).toList();
    reports.addAll(seen);
    return reports;
  }

  /**
   * Where a crop was seen grown, or was harvested, in another year than it is declared for: its
   * pollen was there then, whichever of both is wrong. A harvest is the grower's own word. South of
   * the equator rye flowers in the year before its harvest. Common practice, no source.
   */
  private static Stream<Plot> seenInOtherYears(Dossier dossier, Plot declared) {
    if (isSouthern(declared)) {
      return Stream.empty();
    }
    Set<Integer> looked = years(dossier, Plots::isOfGrownPlants);
    Set<Integer> all = years(dossier, fact -> fact instanceof Harvest || isOfGrownPlants(fact));
    return all.stream()
        .filter(year -> year != declared.cropYear())
        .map(
            year ->
                declared.standingIn(
                    year, looked.contains(year) ? Optional.empty() : dossier.holder()));
  }

  private static boolean isSouthern(Plot plot) {
    return plot.outline().stream().allMatch(corner -> corner.lat() < 0);
  }

  private static Set<Integer> years(Dossier dossier, Predicate<SpecificRecord> of) {
    return dossier
        .counting()
        .filter(of)
        .map(fact -> FactType.dayOf(fact).getYear())
        .collect(Collectors.toCollection(TreeSet::new));
  }

  /**
   * The last declaration of a crop, withdrawn while looks at grown plants in it count on: such a
   * crop stands. Young plants may have been ploughed in, and other rye sown in their place.
   */
  private static Optional<FieldCropDeclared> withdrawnThoughSeen(Dossier dossier) {
    return dossier.counting().anyMatch(Plots::isOfGrownPlants)
        ? dossier.entries().stream()
            .filter(entry -> entry.superseded().isPresent())
            .map(Entry::fact)
            .filter(FieldCropDeclared.class::isInstance)
            .map(FieldCropDeclared.class::cast)
            .reduce((earlier, later) -> later)
        : Optional.empty();
  }

  private static boolean isOfGrownPlants(SpecificRecord fact) {
    return fact instanceof SterilityCheck
        || (fact instanceof FieldInspection visit && visit.getBbchStage() >= STEM_ELONGATION);
  }

  /** A declared crop is confirmed by whoever inspected it, and by a declaration of another hand. */
  private static Optional<String> declaredBy(Dossier dossier, FieldCropDeclared crop) {
    boolean isConfirmed =
        !dossier.facts(FieldInspection.class).isEmpty()
            || dossier.facts(FieldCropDeclared.class).stream()
                .anyMatch(declared -> reporter(declared).isEmpty());
    return isConfirmed ? Optional.empty() : reporter(crop);
  }

  /**
   * What inspectors, quality or files say last of a source settles what growers said before; after
   * it each enterprise's last word stands beside it.
   */
  private static List<Plot> ofSource(Dossier dossier) {
    Optional<PollenSourceSeen> settled = Optional.empty();
    Map<String, PollenSourceSeen> growers = new LinkedHashMap<>();
    for (PollenSourceSeen seen : dossier.facts(PollenSourceSeen.class)) {
      Optional<String> grower = reporter(seen);
      if (grower.isPresent()) {
        growers.put(grower.get(), seen);
      } else {
        settled = Optional.of(seen);
        growers.clear();
      }
    }
    List<Plot> reports = new ArrayList<>();
    settled.stream().flatMap(seen -> ofSourceInEachYear(dossier, seen)).forEach(reports::add);
    Stream.concat(dossier.awaiting(PollenSourceSeen.class).stream(), growers.values().stream())
        .flatMap(seen -> ofSourceInEachYear(dossier, seen))
        .forEach(reports::add);
    return reports;
  }

  /** The grower's enterprise where a grower brought the fact. */
  private static Optional<String> reporter(SpecificRecord fact) {
    return SignedSubmissions.of(fact)
        .filter(submission -> submission.getRole() == SenderRole.MULTIPLIER)
        .map(Submission::getEnterpriseId);
  }

  private static Plot ofCrop(Dossier dossier, FieldCropDeclared crop) {
    return new Plot(
        dossier.subject(),
        crop.getCropYear(),
        positions(crop.getOutline()),
        Optional.of(crop.getPollenComponentId()),
        Optional.empty(),
        Optional.ofNullable(crop.getFloweringFrom()),
        Optional.ofNullable(crop.getFloweringTo()),
        crop.getHeader().getFactId(),
        declaredBy(dossier, crop),
        Optional.empty(),
        Optional.empty());
  }

  /** Rye that is seen by midsummer flowers in that year, for whatever year it was entered. */
  private static Stream<Plot> ofSourceInEachYear(Dossier dossier, PollenSourceSeen seen) {
    Plot source = ofSource(dossier, seen);
    LocalDate first = seen.getFirstSeenOn();
    boolean isOfYearBefore =
        !isSouthern(source)
            && first.getYear() < seen.getCropYear()
            && first.getMonthValue() <= LAST_MONTH_IN_FLOWER.getValue();
    return isOfYearBefore
        ? Stream.of(source, source.standingIn(first.getYear(), source.reportedBy()))
        : Stream.of(source);
  }

  private static Plot ofSource(Dossier dossier, PollenSourceSeen seen) {
    return new Plot(
        dossier.subject(),
        seen.getCropYear(),
        positions(seen.getOutline()),
        Optional.empty(),
        Optional.of(seen.getKind()),
        Optional.empty(),
        Optional.ofNullable(seen.getEndedOn()),
        seen.getHeader().getFactId(),
        reporter(seen),
        Optional.empty(),
        Optional.empty());
  }

  private static List<GeoPosition> positions(List<GeoPoint> outline) {
    return outline.stream().map(GeoPosition::of).toList();
  }
}
