package org.kornspur.processors.plan.field;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.kornspur.ingest.statement.Value.Amount;
import org.kornspur.processors.ground.FieldDrawing;
import org.kornspur.processors.ground.GeoPosition;
import org.kornspur.processors.plan.field.SeasonFields.Obstacle;
import org.kornspur.processors.plan.field.SeasonFields.Placed;
import org.kornspur.processors.plan.field.SeasonFields.Unplaced;

/**
 * Finds fields for the crops of a season. What a person decided stands first. Then crop by crop,
 * seed that is sown again before hybrid seed and large crops before small ones, the field is taken
 * on which the least ground is left over, of equal ones the nearest to the store, among those
 * against which nothing speaks. A proposal that can be sown, and need not be the best one. All of
 * it is asked of once more when all is placed.
 */
public final class FieldProposal {
  /** Less is no crop, hectares. */
  private static final double LEAST_HA = 0.01;

  private final SeasonTask task;
  private final SeasonGround ground;
  private final Map<String, Double> usedHa = new HashMap<>();
  private final Map<FieldName, Integer> indexes = new HashMap<>();
  private final double[] km;
  private final List<Placement> placed = new ArrayList<>();
  private final Map<FieldName, List<Placement>> onField = new HashMap<>();
  private final List<Unplaced> unplaced = new ArrayList<>();

  private FieldProposal(SeasonTask task) {
    this.task = task;
    this.ground =
        new SeasonGround(
            task.year(),
            task.fields(),
            task.known(),
            Stream.concat(
                    task.wanted().stream().map(SeasonTask.Wanted::crop),
                    task.pinned().stream().map(Placement::crop))
                .toList());
    this.km = new double[task.fields().size()];
    for (int i = 0; i < km.length; i++) {
      indexes.put(task.fields().get(i).name(), i);
      GeoPosition middle = FieldDrawing.middleOf(task.fields().get(i).outline());
      km[i] = task.store().map(store -> store.metresTo(middle) / 1000).orElse(0.0);
    }
  }

  /** Fields for all crops that some can be found for. */
  public static SeasonFields of(SeasonTask task) {
    return new FieldProposal(task).proposal();
  }

  /**
   * What a person decided, with all that speaks against it, and nothing more.
   *
   * @return no crop that is unplaced
   */
  public static SeasonFields check(SeasonTask task) {
    FieldProposal checked = new FieldProposal(task);
    task.pinned().forEach(checked::put);
    return checked.told();
  }

  private SeasonFields proposal() {
    task.pinned().forEach(this::put);
    task.wanted().stream()
        .sorted(
            Comparator.comparing((SeasonTask.Wanted one) -> one.crop().category())
                .thenComparing(Comparator.comparingDouble(SeasonTask.Wanted::areaHa).reversed())
                .thenComparing(one -> one.crop().seedId()))
        .forEach(this::place);
    SeasonFields told = told();
    told.placed().stream()
        .filter(one -> !one.placement().isPinned() && !one.conflicts().isEmpty())
        .findFirst()
        .ifPresent(
            wrong -> {
              throw new IllegalStateException("A proposal stands against " + wrong.conflicts());
            });
    return told;
  }

  private void put(Placement placement) {
    ground.put(indexes.get(placement.field().name()), placement);
    placed.add(placement);
    onField.computeIfAbsent(placement.field().name(), name -> new ArrayList<>()).add(placement);
    if (!isDeclared(placement)) {
      usedHa.merge(placement.field().name().enterpriseId(), placement.areaHa(), Double::sum);
    }
  }

  /** What is declared by now is no longer part of what is wanted, nor of what growers have left. */
  private boolean isDeclared(Placement placement) {
    return placement.isPinned()
        && ground.isDeclared(placement, indexes.get(placement.field().name()));
  }

  private void place(SeasonTask.Wanted wanted) {
    double decidedHa =
        task.pinned().stream()
            .filter(pin -> pin.crop().seedId().equals(wanted.crop().seedId()))
            .filter(pin -> !isDeclared(pin))
            .mapToDouble(Placement::areaHa)
            .sum();
    double missingHa = wanted.areaHa() - decidedHa;
    Refused refused = new Refused();
    while (missingHa > LEAST_HA) {
      Optional<Integer> free = free(wanted.crop(), missingHa, refused);
      if (free.isEmpty()) {
        unplaced.add(
            new Unplaced(
                wanted.crop(),
                missingHa,
                refused.obstacles,
                refused.examples.values().stream()
                    .flatMap(field -> first(wanted.crop(), field).stream())
                    .toList()));
        return;
      }
      KnownField field = task.fields().get(free.get());
      double areaHa = Math.min(missingHa, Math.min(field.areaHa(), leftHa(field)));
      put(new Placement(wanted.crop(), field, areaHa, false));
      missingHa -= areaHa;
    }
  }

  private Optional<Integer> free(PlannedCrop crop, double missingHa, Refused refused) {
    List<Integer> order =
        IntStream.range(0, task.fields().size())
            .filter(field -> !refused.fields.get(field) && !ground.isTaken(field))
            .filter(field -> !refused.by(field, ground.knownAgainst(crop, field)))
            .boxed()
            .sorted(
                Comparator.comparingDouble((Integer field) -> leftOverHa(field, missingHa))
                    .thenComparing(field -> km[field])
                    .thenComparing(field -> task.fields().get(field).name()))
            .toList();
    return order.stream().filter(field -> !refused.by(field, first(crop, field))).findFirst();
  }

  /** The fields that are not for a crop, and why. */
  private static final class Refused {
    private final BitSet fields = new BitSet();
    private final Map<Obstacle, Integer> obstacles = new EnumMap<>(Obstacle.class);
    private final Map<Obstacle, Integer> examples = new EnumMap<>(Obstacle.class);

    /** Whether a field is refused; notes what speaks against it. */
    boolean by(int field, Optional<FieldConflict> conflict) {
      conflict.ifPresent(
          against -> {
            fields.set(field);
            obstacles.merge(Obstacle.of(against), 1, Integer::sum);
            examples.putIfAbsent(Obstacle.of(against), field);
          });
      return conflict.isPresent();
    }
  }

  /** Whole hectares that lie idle, or that are still missing then; the fewer the better. */
  private double leftOverHa(int field, double missingHa) {
    return Math.rint(Math.abs(task.fields().get(field).areaHa() - missingHa));
  }

  private Optional<FieldConflict> first(PlannedCrop crop, int field) {
    KnownField here = task.fields().get(field);
    if (leftHa(here) <= LEAST_HA) {
      return Optional.of(overCapacity(crop, here, usedHa.get(here.name().enterpriseId())));
    }
    return ground.firstAgainst(crop, field);
  }

  private double leftHa(KnownField field) {
    String grower = field.name().enterpriseId();
    return Optional.ofNullable(task.mostHa().get(grower))
        .map(most -> most - usedHa.getOrDefault(grower, 0.0))
        .orElse(Double.POSITIVE_INFINITY);
  }

  private FieldConflict overCapacity(PlannedCrop crop, KnownField field, double plannedHa) {
    String grower = field.name().enterpriseId();
    return new FieldConflict.OverCapacity(
        crop.seedId(),
        field.name().fieldId(),
        grower,
        hectares(plannedHa),
        hectares(task.mostHa().get(grower)));
  }

  private SeasonFields told() {
    return new SeasonFields(placed.stream().map(this::told).toList(), unplaced);
  }

  private Placed told(Placement placement) {
    KnownField field = placement.field();
    int index = indexes.get(field.name());
    List<FieldConflict> conflicts = new ArrayList<>(ground.against(placement, index));
    onField.get(field.name()).stream()
        .map(there -> there.crop().seedId())
        .filter(seedId -> !seedId.equals(placement.crop().seedId()))
        .map(
            seedId ->
                new FieldConflict.TakenByPlanned(
                    placement.crop().seedId(), field.name().fieldId(), seedId))
        .forEach(conflicts::add);
    if (leftHa(field) < -LEAST_HA) {
      conflicts.add(overCapacity(placement.crop(), field, usedHa.get(field.name().enterpriseId())));
    }
    if (placement.areaHa() > field.areaHa() + LEAST_HA) {
      conflicts.add(
          new FieldConflict.TooSmall(
              placement.crop().seedId(),
              field.name().fieldId(),
              hectares(placement.areaHa()),
              hectares(field.areaHa())));
    }
    return new Placed(
        placement,
        conflicts,
        ground.isBookSilent(placement),
        task.store().isPresent() ? Optional.of(km[index]) : Optional.empty());
  }

  private static Amount hectares(double ha) {
    return new Amount(ha, "ha");
  }
}
