package org.kornspur.processors.advice;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.kornspur.contract.CropRole;
import org.kornspur.contract.FieldInspection;
import org.kornspur.contract.InspectedPart;
import org.kornspur.contract.SterilityCheck;
import org.kornspur.ingest.statement.Value.Amount;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.finding.Aspect;
import org.kornspur.processors.standards.Limit;
import org.kornspur.processors.standards.Quantity;

/**
 * Bad units among units counted in a crop, against one limit.
 *
 * <p>A count by area is taken apart into pieces of ground so small that a crop just at the limit
 * has one off-type in a thousand of them; two in one piece are then as good as never, and the
 * binomial holds.
 *
 * @param inspected part of the crop that was counted
 * @param part what was counted in it
 * @param about which part and visit that is
 * @param unit what one unit is
 * @param units units counted; 0 where nothing was
 * @param bad bad units among them
 * @param acceptable share of bad units at the limit
 * @param factIds facts that were counted
 */
record CropCount(
    InspectedPart inspected,
    CountStatement part,
    Aspect about,
    CountStatement unit,
    int units,
    int bad,
    double acceptable,
    List<String> factIds) {

  /** Limits that are counted for, in the order of a visit. */
  static final List<Quantity> QUANTITIES =
      List.of(
          Quantity.SHEDDING_FEMALES,
          Quantity.SHEDDING_FEMALES_ALL_VISITS,
          Quantity.FEMALE_STERILITY,
          Quantity.OFF_TYPES_BY_PLANTS,
          Quantity.OFF_TYPES_BY_AREA);

  private static final double SHARE_OF_PIECES = 0.001;

  static List<CropCount> of(Dossier crop, CropRole role, Limit limit) {
    return switch (limit.quantity()) {
      case SHEDDING_FEMALES -> lastVisit(crop, limit);
      case SHEDDING_FEMALES_ALL_VISITS ->
          List.of(shedding(new Aspect.AllVisits(), femaleVisits(crop), limit.value()));
      case FEMALE_STERILITY -> List.of(sterility(crop, 1 - limit.value() / 100));
      case OFF_TYPES_BY_PLANTS -> offTypes(crop, role, limit, false);
      case OFF_TYPES_BY_AREA -> offTypes(crop, role, limit, true);
      default -> List.of();
    };
  }

  /** What the least sample for a limit stands under; none for one visit alone. */
  static Optional<Quantity> leastSample(Quantity limited) {
    return switch (limited) {
      case SHEDDING_FEMALES_ALL_VISITS -> Optional.of(Quantity.FLOWERING_PLANTS);
      case FEMALE_STERILITY -> Optional.of(Quantity.EXAMINED_PLANTS);
      case OFF_TYPES_BY_PLANTS -> Optional.of(Quantity.COUNTED_PLANTS);
      case OFF_TYPES_BY_AREA -> Optional.of(Quantity.COUNTED_AREA);
      default -> Optional.empty();
    };
  }

  /** So many plants or square metres in units of a count. */
  static int units(double amount, Limit limit) {
    return limit.quantity() == Quantity.OFF_TYPES_BY_AREA
        ? (int) Math.round(amount * limit.value() / SHARE_OF_PIECES)
        : (int) Math.ceil(amount);
  }

  private static List<CropCount> lastVisit(Dossier crop, Limit limit) {
    List<FieldInspection> visits = femaleVisits(crop);
    int last = visits.stream().mapToInt(FieldInspection::getVisit).max().orElse(1);
    return List.of(
        shedding(
            new Aspect.Visit(last),
            visits.stream().filter(visit -> visit.getVisit() == last).toList(),
            limit.value()));
  }

  private static List<FieldInspection> femaleVisits(Dossier crop) {
    return crop.facts(FieldInspection.class).stream()
        .filter(visit -> visit.getPart() == InspectedPart.FEMALE)
        .filter(
            visit ->
                visit.getSheddingPlants() != null && visit.getPlantsInReceptiveFlower() != null)
        .toList();
  }

  private static CropCount shedding(Aspect about, List<FieldInspection> visits, double acceptable) {
    Tally tally = new Tally();
    visits.forEach(
        visit ->
            tally.add(
                visit.getSheddingPlants(),
                visit.getPlantsInReceptiveFlower(),
                visit.getHeader().getFactId()));
    return tally.count(
        InspectedPart.FEMALE,
        new CountStatement.Shedding(about),
        about,
        new CountStatement.PlantInFlower(),
        acceptable);
  }

  private static CropCount sterility(Dossier crop, double acceptable) {
    Tally tally = new Tally();
    crop.facts(SterilityCheck.class)
        .forEach(
            check ->
                tally.add(
                    check.getPlantsShedding(),
                    check.getPlantsExamined(),
                    check.getHeader().getFactId()));
    return tally.count(
        InspectedPart.FEMALE,
        new CountStatement.Sterility(),
        new Aspect.PlantsInFlower(),
        new CountStatement.PlantExamined(),
        acceptable);
  }

  /** In a mixture sown for F1 seed, plants of the pollen parent are no impurity. */
  private static List<CropCount> offTypes(
      Dossier crop, CropRole role, Limit limit, boolean byArea) {
    double pieceM2 = SHARE_OF_PIECES / limit.value();
    Map<InspectedPart, Tally> byPart = new EnumMap<>(InspectedPart.class);
    for (FieldInspection visit : crop.facts(FieldInspection.class)) {
      if (role == CropRole.F1_MIXTURE && visit.getPart() == InspectedPart.POLLEN_PARENT) {
        continue;
      }
      Optional<Integer> units =
          byArea
              ? Optional.ofNullable(visit.getAreaM2())
                  .map(areaM2 -> (int) Math.min(Integer.MAX_VALUE, Math.round(areaM2 / pieceM2)))
              : Optional.ofNullable(visit.getPlantsCounted());
      units.ifPresent(
          among ->
              byPart
                  .computeIfAbsent(visit.getPart(), part -> new Tally())
                  .add(visit.getOffTypePlants(), among, visit.getHeader().getFactId()));
    }
    if (byPart.isEmpty()) {
      byPart.put(
          role == CropRole.STERILE_FEMALE || role == CropRole.F1_MIXTURE
              ? InspectedPart.FEMALE
              : InspectedPart.WHOLE_CROP,
          new Tally());
    }
    CountStatement unit =
        byArea
            ? new CountStatement.Piece(Amount.squareMetres(pieceM2))
            : new CountStatement.Plant();
    double acceptable = byArea ? SHARE_OF_PIECES : limit.value();
    List<CropCount> counts = new ArrayList<>();
    byPart.forEach(
        (part, tally) ->
            counts.add(
                tally.count(
                    part,
                    new CountStatement.OffTypes(part),
                    byArea
                        ? new Aspect.PartByArea(part, Optional.empty())
                        : new Aspect.PartByPlants(part, Optional.empty()),
                    unit,
                    acceptable)));
    return counts;
  }

  private static final class Tally {
    private final List<String> factIds = new ArrayList<>();
    private int bad;
    private int units;

    /** A count of more bad units than units waits for its correction. */
    void add(int found, int among, String factId) {
      if (among > 0 && found <= among) {
        bad += found;
        units = Math.addExact(units, among);
        factIds.add(factId);
      }
    }

    CropCount count(
        InspectedPart inspected,
        CountStatement part,
        Aspect about,
        CountStatement unit,
        double acceptable) {
      return new CropCount(
          inspected, part, about, unit, units, bad, acceptable, List.copyOf(factIds));
    }
  }
}
