package org.kornspur.api.web.plan;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.kornspur.api.query.plan.PlanView;
import org.kornspur.processors.plan.Allotment;
import org.kornspur.processors.plan.Generation;
import org.kornspur.processors.plan.SeedDemand;
import org.kornspur.processors.plan.SeedPlan;
import org.kornspur.processors.plan.Supply;

/**
 * What the page of a plan shows.
 *
 * @param view the plan; empty while it is new
 * @param mayChange whether the caller may save and approve
 * @param refusals why the last form was not taken
 */
public record PlanPageView(
    String action,
    Optional<PlanView> view,
    PlanForm form,
    boolean mayChange,
    List<String> refusals) {

  /** One seed over all years. */
  public record SeedRow(String seedId, Generation generation, List<PlanView.SeasonView> seasons) {}

  /**
   * A crop with the lots that are in store for it.
   *
   * @param sowingYear in whose autumn it is sown
   * @param pinHa area decided on, as text; empty where none is
   */
  public record CropRow(SeedPlan.Crop crop, int sowingYear, List<Allotment> lots, String pinHa) {}

  /** A pinned area of which less is sown. */
  public record PinRow(String seedId, int year, double pinnedHa, double sownHa) {}

  /** Lots that are not counted for one reason. */
  public record LeftOutGroup(Supply.Reason reason, double kg, List<Supply.LeftOut> lots) {}

  /** Which of the three quantities can be planned for. */
  public List<String> levels() {
    return Arrays.stream(SeedDemand.Level.values()).map(Enum::name).toList();
  }

  /** Each seed with its years, hybrids first. */
  public List<SeedRow> seeds() {
    Map<String, List<PlanView.SeasonView>> rows = new LinkedHashMap<>();
    view.stream()
        .flatMap(plan -> plan.seasons().stream())
        .forEach(one -> rows.computeIfAbsent(one.seedId(), id -> new ArrayList<>()).add(one));
    return rows.values().stream()
        .map(years -> new SeedRow(years.get(0).seedId(), years.get(0).generation(), years))
        .toList();
  }

  /** What is sown, autumn by autumn, and pinned areas of which nothing is. */
  public List<CropRow> crops() {
    return view.stream()
        .flatMap(plan -> plan.crops().stream())
        .map(
            crop ->
                new CropRow(
                    crop,
                    crop.year() - 1,
                    lotsFor(crop),
                    form.pins().stream()
                        .filter(pin -> isOf(pin, crop))
                        .findFirst()
                        .map(PlanForm.Pin::areaHa)
                        .orElse("")))
        .toList();
  }

  private List<Allotment> lotsFor(SeedPlan.Crop crop) {
    return view.orElseThrow().allotments().stream()
        .filter(lot -> lot.year() == crop.year() - 1)
        .filter(lot -> lot.cropSeedId().filter(crop.seedId()::equals).isPresent())
        .toList();
  }

  private static boolean isOf(PlanForm.Pin pin, SeedPlan.Crop crop) {
    return pin.year() == crop.year() && pin.seedId().equals(crop.seedId());
  }

  /** Pinned areas that are no crop of the plan, so that the form keeps them. */
  public List<PlanForm.Pin> pinsWithoutCrop() {
    return form.pins().stream()
        .filter(pin -> view.orElseThrow().crops().stream().noneMatch(crop -> isOf(pin, crop)))
        .toList();
  }

  /** Pinned areas of which less is sown. */
  public List<PinRow> pinsShort() {
    return view.stream()
        .flatMap(plan -> plan.pins().stream())
        .filter(pin -> pin.sownHa() < pin.pin().areaHa() - 0.005)
        .map(
            pin ->
                new PinRow(pin.pin().seedId(), pin.pin().year(), pin.pin().areaHa(), pin.sownHa()))
        .toList();
  }

  /** Lots in store that are not counted, by reason. */
  public List<LeftOutGroup> leftOut() {
    List<LeftOutGroup> groups = new ArrayList<>();
    for (Supply.Reason reason : Supply.Reason.values()) {
      List<Supply.LeftOut> lots =
          view.stream()
              .flatMap(plan -> plan.leftOut().stream())
              .filter(lot -> lot.reason() == reason)
              .toList();
      if (!lots.isEmpty()) {
        groups.add(
            new LeftOutGroup(
                reason, lots.stream().mapToDouble(Supply.LeftOut::leftKg).sum(), lots));
      }
    }
    return groups;
  }
}
