package org.kornspur.api.web.plan;

import java.util.List;
import java.util.Optional;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.IntStream;
import org.kornspur.api.query.plan.CalculatedPlan;
import org.kornspur.api.query.plan.FieldChoices;
import org.kornspur.api.query.plan.FieldsView;
import org.kornspur.api.query.plan.PlanFieldService.FieldsOfYear;
import org.kornspur.api.text.LocalFormat;
import org.kornspur.processors.plan.SeedPlan;

/**
 * What the page of the fields of a harvest shows.
 *
 * @param name of the plan
 * @param books rulebooks that may be chosen
 * @param growers every grower that has a field
 * @param options every field, as it is typed
 * @param seeds that are grown for the harvest
 * @param local customs by which numbers are typed
 * @param mayChange whether the caller may save
 * @param refusals why the last form was not taken
 */
public record PlanFieldsView(
    String name,
    FieldsView view,
    List<Integer> years,
    FieldChoices choices,
    List<Book> books,
    List<Grower> growers,
    List<String> options,
    List<String> seeds,
    LocalFormat local,
    boolean mayChange,
    List<String> refusals) {

  /** Rows of the form that are empty. */
  private static final int EMPTY_ROWS = 3;

  /** A rulebook. */
  public record Book(String id, boolean chosen) {}

  /** A grower with the most hectares, as text; empty where there is no limit. */
  public record Grower(String enterpriseId, String mostHa) {}

  static PlanFieldsView of(
      CalculatedPlan plan,
      FieldsOfYear fields,
      FieldsView view,
      List<String> books,
      LocalFormat local,
      boolean mayChange,
      List<String> refusals) {
    FieldChoices choices = plan.question().fields();
    TreeMap<String, String> growers = new TreeMap<>();
    fields.fields().forEach(field -> growers.put(field.name().enterpriseId(), ""));
    choices
        .growers()
        .forEach(one -> growers.put(one.enterpriseId(), FieldsForm.typed(one.mostHa(), local)));
    TreeSet<String> seeds = new TreeSet<>();
    plan.plan().crops().stream()
        .filter(crop -> crop.year() == fields.year())
        .map(SeedPlan.Crop::seedId)
        .forEach(seeds::add);
    view.placed().forEach(one -> seeds.add(one.seedId()));
    return new PlanFieldsView(
        plan.version().getName(),
        view,
        IntStream.rangeClosed(plan.question().firstYear() + 1, plan.question().lastYear())
            .boxed()
            .toList(),
        choices,
        books.stream().map(id -> new Book(id, id.equals(choices.rulebookId()))).toList(),
        growers.entrySet().stream().map(one -> new Grower(one.getKey(), one.getValue())).toList(),
        fields.fields().stream()
            .map(field -> field.name().enterpriseId() + FieldsForm.BETWEEN + field.name().fieldId())
            .toList(),
        List.copyOf(seeds),
        local,
        mayChange,
        refusals);
  }

  /** A field as it is typed. */
  public String typed(FieldsView.PlacedView one) {
    return one.enterpriseId() + FieldsForm.BETWEEN + one.fieldId();
  }

  /** Hectares of a crop as they are typed. */
  public String typedHa(FieldsView.PlacedView one) {
    return FieldsForm.typed(one.areaHa(), local);
  }

  /** Numbers of the empty rows, behind those of the crops. */
  public List<Integer> emptyRows() {
    int last = view.placed().size();
    return IntStream.rangeClosed(last + 1, last + EMPTY_ROWS).boxed().toList();
  }

  /** Longitude of the store, in degrees, as text. */
  public String storeLon() {
    return Optional.ofNullable(choices.store()).map(store -> local.typed(store.lon())).orElse("");
  }

  /** Latitude of the store, in degrees, as text. */
  public String storeLat() {
    return Optional.ofNullable(choices.store()).map(store -> local.typed(store.lat())).orElse("");
  }
}
