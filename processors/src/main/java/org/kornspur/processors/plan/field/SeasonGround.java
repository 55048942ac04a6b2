package org.kornspur.processors.plan.field;

import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import org.kornspur.processors.dossier.Report.EarlierRye;
import org.kornspur.processors.ground.NearOutlines;
import org.kornspur.processors.plan.field.GateQuestions.Recent;
import org.kornspur.processors.standards.Rulebooks;

/**
 * The ground of one season: fields, the rye that is known on them and around them, and what a plan
 * puts on them. It says what speaks against a crop on a field; each answer is by the distances and
 * the gates that judge the crop once it is declared.
 */
final class SeasonGround {
  private final int year;
  private final List<KnownField> fields;
  private final List<RyeStand> known;
  private final NearOutlines near;
  private final Map<Integer, RyeStand> plannedOn = new HashMap<>();
  private final GateQuestions gates = new GateQuestions();
  private final Map<List<Object>, Optional<Recent>> ryeBefore = new HashMap<>();
  private final Map<List<Object>, Blocker> blockers = new HashMap<>();

  /**
   * What keeps crops of a kind from a field, whatever comes after: what is put on the ground stays.
   *
   * @param wantedBy pollen of the only crops that it does not keep off; empty where it keeps off
   *     all
   */
  private record Blocker(FieldConflict conflict, Optional<String> wantedBy) {}

  /**
   * @param known rye of the year and of years before
   * @param planned every crop that is to be put somewhere
   */
  SeasonGround(
      int year, List<KnownField> fields, List<RyeStand> known, Collection<PlannedCrop> planned) {
    this.year = year;
    this.fields = fields;
    this.known = known;
    this.near =
        new NearOutlines(
            Stream.concat(
                    fields.stream().map(KnownField::outline), known.stream().map(RyeStand::outline))
                .toList(),
            Stream.concat(
                    planned.stream()
                        .distinct()
                        .map(
                            crop ->
                                GateQuestions.widestM(
                                    crop.rulebook(), crop.category(), crop.role(), year)),
                    known.stream()
                        .flatMap(stand -> stand.seedCrop().stream())
                        .map(
                            rules ->
                                GateQuestions.widestM(
                                    rules.rulebook(),
                                    rules.declared().getCategory(),
                                    rules.declared().getRole(),
                                    year)))
                .max(Comparator.naturalOrder())
                .orElse(0.0));
  }

  void put(int field, Placement placement) {
    plannedOn.putIfAbsent(field, RyeStand.planned(placement));
  }

  boolean isTaken(int field) {
    return plannedOn.containsKey(field);
  }

  /** Whether the rulebook says nothing of the distance that the crop must keep. */
  boolean isBookSilent(Placement placement) {
    return gates.isBookSilent(RyeStand.planned(placement).seedCrop().orElseThrow());
  }

  /** What was found before to keep such a crop from a field; empty where it is to be asked. */
  Optional<FieldConflict> knownAgainst(PlannedCrop crop, int field) {
    return Optional.ofNullable(blockers.get(kind(crop, field)))
        .filter(blocker -> !blocker.wantedBy().equals(Optional.of(crop.pollenId())))
        .map(Blocker::conflict);
  }

  /** The first thing that speaks against a crop on a field. */
  Optional<FieldConflict> firstAgainst(PlannedCrop crop, int field) {
    RyeStand here = stand(crop, field);
    Optional<Blocker> blocker =
        rye(crop, here, field)
            .map(conflict -> new Blocker(conflict, Optional.empty()))
            .or(
                () ->
                    ofTheYear(here, field)
                        .flatMap(
                            met ->
                                met
                                    .conflict(gates)
                                    .map(
                                        conflict ->
                                            new Blocker(conflict, met.other().plot().pollenId()))
                                    .stream())
                        .findFirst());
    blocker.ifPresent(found -> blockers.put(kind(crop, field), found));
    return blocker.map(Blocker::conflict);
  }

  private static List<Object> kind(PlannedCrop crop, int field) {
    return List.of(field, crop.rulebook().id(), crop.role(), crop.category());
  }

  private RyeStand stand(PlannedCrop crop, int field) {
    return RyeStand.planned(new Placement(crop, fields.get(field), 0, false));
  }

  private Stream<StandPair> ofTheYear(RyeStand here, int field) {
    return around(here, field).filter(met -> met.other().plot().cropYear() == year);
  }

  /** Whether a crop is declared by now where a person had decided on it. */
  boolean isDeclared(Placement placement, int field) {
    return ofTheYear(RyeStand.planned(placement), field).anyMatch(StandPair::isDeclaredAsDecided);
  }

  /** All that speaks against a crop on its field; a crop that is put there is not asked of. */
  List<FieldConflict> against(Placement placement, int field) {
    RyeStand here = RyeStand.planned(placement);
    return Stream.concat(
            rye(placement.crop(), here, field).stream(),
            ofTheYear(here, field).flatMap(met -> met.conflict(gates).stream()))
        .toList();
  }

  private Optional<FieldConflict> rye(PlannedCrop crop, RyeStand here, int field) {
    return before(crop, here, field)
        .map(
            recent ->
                new FieldConflict.RyeBefore(
                    crop.seedId(),
                    fields.get(field).name().fieldId(),
                    recent.rye().cropYear(),
                    recent.years(),
                    StandPair.amount(recent.limit()),
                    recent.limit().rulebookId()));
  }

  private Stream<StandPair> around(RyeStand here, int field) {
    return near.of(field).stream()
        .flatMap(
            one ->
                Optional.ofNullable(
                        one.index() < fields.size()
                            ? plannedOn.get(one.index())
                            : known.get(one.index() - fields.size()))
                    .stream()
                    .map(stand -> new StandPair(here, stand, one.separation(), one.commonHa())));
  }

  private Optional<Recent> before(PlannedCrop crop, RyeStand here, int field) {
    return ryeBefore.computeIfAbsent(
        kind(crop, field),
        asked -> gates.ryeBefore(here.seedCrop().orElseThrow(), earlier(here, field)));
  }

  private List<EarlierRye> earlier(RyeStand here, int field) {
    return around(here, field)
        .filter(met -> met.commonHa() > 0 && met.other().plot().isRyeCrop())
        .filter(met -> met.other().plot().cropYear() < year)
        .filter(met -> met.other().plot().cropYear() >= year - Rulebooks.MOST_YEARS_BACK)
        .map(
            met ->
                new EarlierRye(
                    met.other().plot().subject(),
                    met.other().plot().cropYear(),
                    met.commonHa(),
                    met.other().plot().factId(),
                    Optional.empty()))
        .toList();
  }
}
