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
import org.kornspur.api.query.recall.LotFinder;
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
public class SearchService {
  /** Shorter texts are in nearly everything. */
  public static final int SHORTEST = 2;

  /** An id has 64 characters at most, a document more. */
  public static final int LONGEST = 128;

  private static final Map<SearchIndex.Kind, SearchHit.By> OF_FACTS =
      Map.of(
          SearchIndex.Kind.FIELD, SearchHit.By.FIELD,
          SearchIndex.Kind.SAMPLE, SearchHit.By.SAMPLE,
          SearchIndex.Kind.PLOT, SearchHit.By.PLOT,
          SearchIndex.Kind.LABEL, SearchHit.By.LABEL,
          SearchIndex.Kind.CUSTOMER, SearchHit.By.CUSTOMER,
          SearchIndex.Kind.DOCUMENT, SearchHit.By.DOCUMENT,
          SearchIndex.Kind.PERSON, SearchHit.By.PERSON);

  @Inject VisibleData data;
  @Inject FactReadModel facts;
  @Inject LotFinder finder;
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
    List<SearchHit> found = find(text.strip());
    FirstReasonWords reasons = words.firstReasons();
    return PageView.of(
        ResultPage.of(found.stream(), page, size),
        one -> FoundView.of(one, reasons),
        queries.asOf());
  }

  private List<SearchHit> find(String text) {
    String wanted = SearchIndex.folded(text);
    Map<Subject, SearchHit> nearest = new HashMap<>();
    EnterpriseNames names = facts.enterprises();
    Set<String> named = names.named(text);
    for (StandingIndexRow row : data.matching(row -> maySee(row.subject()))) {
      ofRow(row, wanted, named, names)
          .ifPresent(found -> nearest.merge(row.subject(), found, SearchService::nearer));
    }
    SearchIndex index = facts.search();
    OF_FACTS.forEach(
        (kind, by) -> {
          if (data.isWhole() || by == SearchHit.By.FIELD) {
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
                      adding(SearchHit.By.CUSTOMER, nearest).accept(names.of(id).orElse(id), lot)));
    }
    finder
        .find(text)
        .forEach(exact -> adding(by(exact.how()), nearest).accept(text, exact.subject()));
    return nearest.values().stream().sorted(order(wanted)).toList();
  }

  private Optional<SearchHit> ofRow(
      StandingIndexRow row, String wanted, Set<String> named, EnterpriseNames names) {
    if (has(row.subject().id(), wanted)) {
      return Optional.of(new SearchHit(row, SearchHit.By.ID, row.subject().id()));
    }
    Optional<SearchHit> bySeed =
        row.material()
            .flatMap(
                seed ->
                    Stream.of(seed.getSeedId(), seed.getHybridId())
                        .filter(id -> has(id, wanted))
                        .findFirst())
            .map(id -> new SearchHit(row, SearchHit.By.SEED, id));
    return bySeed.or(
        () ->
            row.holder()
                .filter(holder -> has(holder, wanted) || named.contains(holder))
                .map(
                    holder ->
                        new SearchHit(
                            row,
                            SearchHit.By.HOLDER,
                            named.contains(holder) ? names.of(holder).orElse(holder) : holder)));
  }

  private BiConsumer<String, Subject> adding(SearchHit.By by, Map<Subject, SearchHit> nearest) {
    return (text, subject) ->
        Optional.of(subject)
            .filter(this::maySee)
            .flatMap(data::row)
            .ifPresent(
                row -> nearest.merge(subject, new SearchHit(row, by, text), SearchService::nearer));
  }

  private boolean maySee(Subject subject) {
    return caller
        .get()
        .may(subject.kind() == Subject.Kind.LOT ? Permission.READ_LOTS : Permission.READ_CROPS);
  }

  private static SearchHit.By by(LotFinder.How how) {
    return switch (how) {
      case LABEL, BETWEEN_LABELS -> SearchHit.By.LABEL;
      case ID -> SearchHit.By.ID;
      case FACT -> SearchHit.By.FACT;
    };
  }

  private static SearchHit nearer(SearchHit one, SearchHit other) {
    int by = one.by().compareTo(other.by());
    return by < 0 || by == 0 && one.text().compareTo(other.text()) <= 0 ? one : other;
  }

  /** The whole id first, then ids that begin so, then by what was found, the latest year first. */
  private static Comparator<SearchHit> order(String wanted) {
    return Comparator.comparing(
            (SearchHit found) -> !SearchIndex.folded(found.row().subject().id()).equals(wanted))
        .thenComparing(found -> !SearchIndex.folded(found.row().subject().id()).startsWith(wanted))
        .thenComparing(SearchHit::by)
        .thenComparing(found -> found.row().material().map(seed -> -seed.getCropYear()).orElse(0))
        .thenComparing(found -> found.row().subject().id())
        .thenComparing(found -> found.row().subject().kind());
  }

  private static boolean has(String text, String wanted) {
    return SearchIndex.folded(text).contains(wanted);
  }
}
