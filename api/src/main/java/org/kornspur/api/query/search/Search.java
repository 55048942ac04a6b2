package org.kornspur.api.query.search;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.BiConsumer;
import java.util.stream.Stream;
import org.kornspur.api.query.QueryService;
import org.kornspur.api.query.RequestWords;
import org.kornspur.api.query.VisibleData;
import org.kornspur.api.query.recall.Finder;
import org.kornspur.api.query.view.PageView;
import org.kornspur.api.readmodel.EnterpriseNames;
import org.kornspur.api.readmodel.FactReadModel;
import org.kornspur.api.readmodel.ResultPage;
import org.kornspur.api.readmodel.SearchIndex;
import org.kornspur.api.readmodel.StandingIndexRow;
import org.kornspur.api.security.CurrentCaller;
import org.kornspur.api.security.Permission;
import org.kornspur.api.text.FirstReasonWords;
import org.kornspur.ingest.contract.Subject;

/**
 * Finds crops and lots by any part, in any case, of an id, seed, field, sample, label, document,
 * enterprise or person.
 *
 * <p>Each is found once, by what is nearest to it. Only what the caller sees is found. Who sees a
 * part of the data finds by what the lists show, and by fields: a document or a person belongs to a
 * fact, and facts of seed that one sees may be another's.
 */
@ApplicationScoped
public class Search {
  /** Shorter texts are in nearly everything. */
  public static final int SHORTEST = 2;

  /** An id has 64 characters at most, a document more. */
  public static final int LONGEST = 128;

  private static final Map<SearchIndex.Kind, Found.By> OF_FACTS =
      Map.of(
          SearchIndex.Kind.FIELD, Found.By.FIELD,
          SearchIndex.Kind.SAMPLE, Found.By.SAMPLE,
          SearchIndex.Kind.PLOT, Found.By.PLOT,
          SearchIndex.Kind.LABEL, Found.By.LABEL,
          SearchIndex.Kind.CUSTOMER, Found.By.CUSTOMER,
          SearchIndex.Kind.DOCUMENT, Found.By.DOCUMENT,
          SearchIndex.Kind.PERSON, Found.By.PERSON);

  @Inject VisibleData data;
  @Inject FactReadModel facts;
  @Inject Finder finder;
  @Inject CurrentCaller caller;
  @Inject QueryService queries;
  @Inject RequestWords words;

  /**
   * One page of what is found.
   *
   * @param text at least {@link #SHORTEST} characters
   * @param page from 1
   */
  public PageView<FoundView> page(String text, int page, int size) {
    List<Found> found = find(text.strip());
    FirstReasonWords reasons = words.firstReasons();
    return PageView.of(
        ResultPage.of(found.stream(), page, size),
        one -> FoundView.of(one, reasons),
        queries.asOf());
  }

  private List<Found> find(String text) {
    String wanted = SearchIndex.folded(text);
    Map<Subject, Found> nearest = new HashMap<>();
    EnterpriseNames names = facts.enterprises();
    Set<String> named = names.named(text);
    for (StandingIndexRow row : data.matching(row -> maySee(row.subject()))) {
      ofRow(row, wanted, named, names)
          .ifPresent(found -> nearest.merge(row.subject(), found, Search::nearer));
    }
    SearchIndex index = facts.search();
    OF_FACTS.forEach(
        (kind, by) -> {
          if (data.isWhole() || by == Found.By.FIELD) {
            index.find(kind, text, adding(by, nearest));
          }
        });
    if (data.isWhole()) {
      named.forEach(
          customer ->
              index.find(
                  SearchIndex.Kind.CUSTOMER,
                  customer,
                  (id, lot) ->
                      adding(Found.By.CUSTOMER, nearest).accept(names.of(id).orElse(id), lot)));
    }
    finder
        .find(text)
        .forEach(exact -> adding(by(exact.how()), nearest).accept(text, exact.subject()));
    return nearest.values().stream().sorted(order(wanted)).toList();
  }

  private Optional<Found> ofRow(
      StandingIndexRow row, String wanted, Set<String> named, EnterpriseNames names) {
    if (has(row.subject().id(), wanted)) {
      return Optional.of(new Found(row, Found.By.ID, row.subject().id()));
    }
    Optional<Found> bySeed =
        row.material()
            .flatMap(
                seed ->
                    Stream.of(seed.getSeedId(), seed.getHybridId())
                        .filter(id -> has(id, wanted))
                        .findFirst())
            .map(id -> new Found(row, Found.By.SEED, id));
    return bySeed.or(
        () ->
            row.holder()
                .filter(holder -> has(holder, wanted) || named.contains(holder))
                .map(
                    holder ->
                        new Found(
                            row,
                            Found.By.HOLDER,
                            named.contains(holder) ? names.of(holder).orElse(holder) : holder)));
  }

  private BiConsumer<String, Subject> adding(Found.By by, Map<Subject, Found> nearest) {
    return (text, subject) ->
        Optional.of(subject)
            .filter(this::maySee)
            .flatMap(data::row)
            .ifPresent(row -> nearest.merge(subject, new Found(row, by, text), Search::nearer));
  }

  private boolean maySee(Subject subject) {
    return caller
        .get()
        .may(subject.kind() == Subject.Kind.LOT ? Permission.READ_LOTS : Permission.READ_CROPS);
  }

  private static Found.By by(Finder.How how) {
    return switch (how) {
      case LABEL, BETWEEN_LABELS -> Found.By.LABEL;
      case ID -> Found.By.ID;
      case FACT -> Found.By.FACT;
    };
  }

  private static Found nearer(Found one, Found other) {
    int by = one.by().compareTo(other.by());
    return by < 0 || by == 0 && one.text().compareTo(other.text()) <= 0 ? one : other;
  }

  /** The whole id first, then ids that begin so, then by what was found, the latest year first. */
  private static Comparator<Found> order(String wanted) {
    return Comparator.comparing(
            (Found found) -> !SearchIndex.folded(found.row().subject().id()).equals(wanted))
        .thenComparing(found -> !SearchIndex.folded(found.row().subject().id()).startsWith(wanted))
        .thenComparing(Found::by)
        .thenComparing(found -> found.row().material().map(seed -> -seed.getCropYear()).orElse(0))
        .thenComparing(found -> found.row().subject().id())
        .thenComparing(found -> found.row().subject().kind());
  }

  private static boolean has(String text, String wanted) {
    return SearchIndex.folded(text).contains(wanted);
  }
}
