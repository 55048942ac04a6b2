package org.kornspur.api.web;

import jakarta.enterprise.context.RequestScoped;
import jakarta.inject.Inject;
import jakarta.ws.rs.core.UriInfo;
import java.util.Arrays;
import java.util.Collection;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Stream;
import org.kornspur.api.query.VisibleData;
import org.kornspur.api.readmodel.SeedValues;
import org.kornspur.api.text.DomainTerms;
import org.kornspur.contract.Category;
import org.kornspur.processors.verdict.Fitness;
import org.kornspur.standing.StandingState;

/** What there is to choose from in the filters: the values that some crop or lot has. */
@RequestScoped
public class Choices {
  @Inject VisibleData data;
  @Inject Framing framing;

  /** The filters, with those chosen that the address names. */
  Filters filters(UriInfo uri) {
    SeedValues values = data.values();
    DomainTerms trade = DomainTerms.in(framing.language());
    return new Filters(
        options(
            uri,
            "cropYear",
            values.cropYears().stream().map(String::valueOf).toList(),
            Function.identity()),
        options(uri, "hybrid", values.hybridIds(), Function.identity()),
        options(uri, "holder", values.holders(), Function.identity()),
        options(uri, "category", names(Category.values()), trade::category),
        options(uri, "state", names(WORST_FIRST), name -> trade.state(StandingState.valueOf(name))),
        first(uri, "id").orElse(""),
        Stream.of("cropYear", "hybrid", "holder", "category", "state", "id")
            .anyMatch(name -> first(uri, name).isPresent()));
  }

  private static final Fitness[] WORST_FIRST = {
    Fitness.NOT_FIT, Fitness.EVIDENCE_OWED, Fitness.FIT
  };

  private static List<String> names(Enum<?>[] values) {
    return Arrays.stream(values).map(Enum::name).toList();
  }

  private static List<Filters.Option> options(
      UriInfo uri, String parameter, Collection<String> values, Function<String, String> label) {
    Optional<String> chosen = first(uri, parameter);
    return values.stream()
        .map(
            value ->
                new Filters.Option(
                    value, label.apply(value), chosen.filter(value::equals).isPresent()))
        .toList();
  }

  private static Optional<String> first(UriInfo uri, String parameter) {
    return Optional.ofNullable(uri.getQueryParameters().getFirst(parameter))
        .filter(value -> !value.isBlank());
  }
}
