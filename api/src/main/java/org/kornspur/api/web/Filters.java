package org.kornspur.api.web;

import jakarta.ws.rs.core.UriInfo;
import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.Collection;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.kornspur.api.readmodel.SeedValues;
import org.kornspur.api.text.DomainTerms;
import org.kornspur.contract.Category;
import org.kornspur.processors.verdict.Fitness;

/**
 * What a list can be narrowed by, and what it is narrowed by now.
 *
 * @param id beginning of an id, as asked for; empty where not asked
 * @param any whether anything narrows the list
 * @param narrowing the same as parameters of the address
 * @param kept what else the address asks for and stays when the list is narrowed: order, columns,
 *     step of release
 */
public record Filters(
    List<Option> seasons,
    List<Option> hybrids,
    List<Option> seeds,
    List<Option> holders,
    List<Option> categories,
    List<Option> states,
    String id,
    boolean any,
    List<Kept> narrowing,
    List<Kept> kept) {
  private static final List<Fitness> WORST_FIRST =
      List.of(Fitness.NOT_FIT, Fitness.EVIDENCE_OWED, Fitness.FIT);

  private static final List<String> NAMES =
      List.of("cropYear", "hybrid", "holder", "category", "state", "id");

  private static final List<String> KEPT = List.of("release", "sort", "columns", "size");

  /** A parameter of the address. */
  public record Kept(String name, String value) {}

  /** A value to choose; {@code chosen} where it narrows the list now. */
  public record Option(String value, String label, boolean chosen) {}

  /**
   * The filters, with those chosen that the address names.
   *
   * @param values what some crop or lot has
   */
  public static Filters of(UriInfo uri, SeedValues values, DomainTerms trade) {
    return new Filters(
        options(
            uri,
            "cropYear",
            values.cropYears().stream().map(String::valueOf).toList(),
            Function.identity()),
        options(uri, "hybrid", values.hybridIds(), Function.identity()),
        options(uri, "seedId", values.seedIds(), Function.identity()),
        options(uri, "holder", values.holders(), Function.identity()),
        options(uri, "category", names(Arrays.asList(Category.values())), trade::category),
        options(uri, "state", names(WORST_FIRST), trade::stateNamed),
        first(uri, "id").orElse(""),
        NAMES.stream().anyMatch(name -> first(uri, name).isPresent()),
        kept(uri, NAMES),
        kept(uri, KEPT));
  }

  /** What narrows the list, as the query of an address; empty where nothing does. */
  static String asked(UriInfo uri) {
    String query =
        NAMES.stream()
            .flatMap(
                name ->
                    first(uri, name).stream()
                        .map(
                            value -> name + "=" + URLEncoder.encode(value, StandardCharsets.UTF_8)))
            .collect(Collectors.joining("&"));
    return query.isEmpty() ? "" : "?" + query;
  }

  private static List<Kept> kept(UriInfo uri, List<String> names) {
    return names.stream()
        .flatMap(
            name ->
                uri.getQueryParameters().getOrDefault(name, List.of()).stream()
                    .filter(value -> !value.isBlank())
                    .map(value -> new Kept(name, value)))
        .toList();
  }

  private static List<String> names(List<? extends Enum<?>> values) {
    return values.stream().map(value -> value.name()).toList();
  }

  private static List<Option> options(
      UriInfo uri, String parameter, Collection<String> values, Function<String, String> label) {
    Optional<String> chosen = first(uri, parameter);
    return values.stream()
        .map(
            value ->
                new Option(value, label.apply(value), chosen.filter(value::equals).isPresent()))
        .toList();
  }

  private static Optional<String> first(UriInfo uri, String parameter) {
    return Optional.ofNullable(uri.getQueryParameters().getFirst(parameter))
        .filter(value -> !value.isBlank());
  }
}
