package org.kornspur.api.resource;

import com.fasterxml.jackson.databind.JsonNode;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Clock;
import java.time.Instant;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.kornspur.api.access.Visibility;
import org.kornspur.api.engine.Engine;
import org.kornspur.api.engine.NotReady;
import org.kornspur.api.problem.ApiProblem;
import org.kornspur.api.problem.RecordDetail.Hint;
import org.kornspur.api.readmodel.Feeds;
import org.kornspur.api.readmodel.ResultPage;
import org.kornspur.api.readmodel.StandingIndex;
import org.kornspur.api.readmodel.StandingQuery;
import org.kornspur.api.readmodel.StandingRow;
import org.kornspur.api.seal.ProofDesk;
import org.kornspur.api.text.StandingWords;
import org.kornspur.api.text.VerdictWords;
import org.kornspur.api.view.AsOf;
import org.kornspur.api.view.Caution;
import org.kornspur.api.view.DossierView;
import org.kornspur.api.view.NeighboursView;
import org.kornspur.api.view.OwedView;
import org.kornspur.api.view.PageView;
import org.kornspur.api.view.RequestWords;
import org.kornspur.api.view.StandingLine;
import org.kornspur.api.view.StandingView;
import org.kornspur.api.view.TraceView;
import org.kornspur.api.visibility.VisibilityService;
import org.kornspur.api.visibility.VisiblePedigree;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.proof.ProofJson;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.dossier.Entry;
import org.kornspur.processors.pedigree.Pedigree;
import org.kornspur.processors.pedigree.Trace;
import org.kornspur.processors.stream.IsolationJoin;
import org.kornspur.processors.stream.Topics;
import org.kornspur.standing.LotStanding;

/** Puts together what the engine and the indexes know of a subject. */
@ApplicationScoped
public class Answers {
  private final Engine engine;
  private final Feeds feeds;
  private final VisibilityService border;
  private final ProofDesk proofs;
  private final RequestWords requestWords;
  private final Clock clock = Clock.systemUTC();

  @Inject
  public Answers(
      Engine engine,
      Feeds feeds,
      VisibilityService border,
      ProofDesk proofs,
      RequestWords requestWords) {
    this.engine = engine;
    this.border = border;
    this.feeds = feeds;
    this.proofs = proofs;
    this.requestWords = requestWords;
  }

  public PageView<StandingLine> list(StandingQuery query) {
    StandingWords words = requestWords.standings();
    return PageView.of(find(query), row -> StandingLine.of(row, words), asOf());
  }

  public PageView<OwedView> owed(StandingQuery query) {
    ResultPage<StandingRow> rows = find(query);
    ResultPage<LotStanding> standings =
        new ResultPage<>(
            rows.page(),
            rows.size(),
            rows.total(),
            rows.items().stream().flatMap(row -> feeds.standing(row.subject()).stream()).toList());
    VerdictWords words = requestWords.verdicts();
    return PageView.of(standings, standing -> OwedView.of(standing, words), asOf());
  }

  /** One page of the rows that match and that the caller sees. */
  public ResultPage<StandingRow> find(StandingQuery query) {
    Visibility visibility = border.visibility();
    return visibility.isWhole()
        ? feeds.standings().find(query)
        : feeds.standings().find(query, row -> visibility.sees(row.subject()));
  }

  /** What one crop or lot owes. */
  public OwedView owed(Subject subject) {
    return OwedView.of(standing(subject), requestWords.verdicts());
  }

  /**
   * The standing of a crop or lot.
   *
   * @throws ApiProblem if no fact names it
   */
  public StandingView view(Subject subject) {
    LotStanding standing = standing(subject);
    Instant changedAt =
        feeds.standings().row(subject).map(StandingRow::changedAt).orElseGet(clock::instant);
    return StandingView.of(
        standing, new Treatments(engine).of(subject), changedAt, asOf(), requestWords.standings());
  }

  /**
   * What the seed of a lot was treated with. It protects who handles the seed and so is told to
   * them whatever else of the lot they may see; the caller sees to it that they do handle it.
   */
  public Caution.Treatment treatmentOf(Subject lot) {
    return new Treatments(engine).of(lot);
  }

  /**
   * The facts of a subject that lie in a time.
   *
   * @throws ApiProblem if no fact names it
   */
  DossierView dossier(Subject subject, FactTimes.Range times) {
    Visibility visibility = border.visibility();
    if (!visibility.sees(subject) && !visibility.seesSingleFactsOf(subject)) {
      throw unknown(subject);
    }
    List<Entry> all = engine.dossier(subject);
    if (!showsCutFacts(subject, visibility)) {
      all = all.stream().filter(entry -> visibility.sees(entry.fact())).toList();
    }
    if (all.isEmpty()) {
      throw unknown(subject);
    }
    return DossierView.of(
        subject,
        all.stream().filter(times::holds).toList(),
        all,
        visibility,
        requestWords.words(),
        asOf());
  }

  /**
   * Whether facts that reach beyond the border are shown cut. Of own seed they are: one step of its
   * way is the grower's to know. What all share, such as a hybrid, is named by facts of others with
   * which the caller has nothing to do: neither their number nor their times are told.
   */
  private static boolean showsCutFacts(Subject subject, Visibility visibility) {
    return visibility.isWhole()
        || visibility.sees(subject)
            && switch (subject.kind()) {
              case LOT, CROP -> true;
              case HYBRID, ENTERPRISE, SOURCE -> false;
            };
  }

  /**
   * Every fact of a subject, with what proves it.
   *
   * @throws ApiProblem if no fact names it
   */
  JsonNode proof(Subject subject) {
    List<Entry> entries = engine.dossier(subject);
    if (entries.isEmpty() || !border.visibility().sees(subject)) {
      throw unknown(subject);
    }
    return ProofJson.write(proofs.prove(subject, entries));
  }

  /**
   * The whole dossier of a subject, with what parents, the hybrid and the ground told it.
   *
   * @throws ApiProblem if no fact names it
   */
  public Dossier wholeDossier(Subject subject) {
    if (!border.visibility().sees(subject)) {
      throw unknown(subject);
    }
    Dossier dossier = engine.wholeDossier(subject);
    if (dossier.entries().isEmpty()) {
      throw unknown(subject);
    }
    return dossier;
  }

  /**
   * Foreign pollen around a crop.
   *
   * @throws ApiProblem if no fact names it
   */
  public NeighboursView neighbours(Subject crop) {
    return NeighboursView.of(
        wholeDossier(crop), IsolationJoin.REACH_M, border.visibility(), asOf());
  }

  /**
   * A walk through the pedigree.
   *
   * @throws ApiProblem if nothing is known of the start
   */
  public TraceView trace(TraceRequest request) {
    Subject start = request.start();
    Visibility visibility = border.visibility();
    if (!visibility.sees(start)) {
      throw unknown(start);
    }
    StandingIndex standings = feeds.standings();
    Pedigree pedigree = VisiblePedigree.of(engine.pedigree(), visibility);
    long began = System.nanoTime();
    Trace trace = Trace.walk(pedigree, start, request.direction(), request.most());
    double elapsedMs = (System.nanoTime() - began) / 1e6;
    if (trace.edges().isEmpty() && standings.row(start).isEmpty()) {
      throw unknown(start);
    }
    return TraceView.of(
        trace, standings::row, visibility, requestWords.standings(), elapsedMs, asOf());
  }

  /** How far the data behind an answer lags; in numbers to who sees everything. */
  public AsOf asOf() {
    AsOf asOf = asOfAll();
    return border.visibility().isWhole() ? asOf : asOf.withoutNumbers(requestWords.words());
  }

  private AsOf asOfAll() {
    try {
      Map<String, Long> waiting = new LinkedHashMap<>(engine.lag());
      waiting.merge(Topics.STANDINGS.topicName(), feeds.standingsWaiting(), Long::sum);
      return AsOf.waiting(clock.instant(), waiting, engine.factsHeldBack(), requestWords.words());
    } catch (NotReady notTold) {
      return AsOf.unknown(clock.instant(), requestWords.words());
    }
  }

  private LotStanding standing(Subject subject) {
    return Optional.of(subject)
        .filter(border.visibility()::sees)
        .flatMap(feeds::standing)
        .orElseThrow(() -> unknown(subject));
  }

  private ApiProblem unknown(Subject subject) {
    boolean isOtherKind =
        otherKind(subject).filter(this::isJudged).filter(border.visibility()::sees).isPresent();
    return ApiProblem.noFactNames(
        subject,
        isOtherKind
            ? Hint.OTHER_KIND
            : switch (subject.kind()) {
              case LOT, CROP -> Hint.LIST;
              case SOURCE, HYBRID, ENTERPRISE -> Hint.SEND_FACTS;
            });
  }

  private boolean isJudged(Subject subject) {
    return feeds.standings().row(subject).isPresent();
  }

  private static Optional<Subject> otherKind(Subject subject) {
    return switch (subject.kind()) {
      case LOT -> Optional.of(Subject.crop(subject.id()));
      case CROP -> Optional.of(Subject.lot(subject.id()));
      case SOURCE, HYBRID, ENTERPRISE -> Optional.empty();
    };
  }
}
