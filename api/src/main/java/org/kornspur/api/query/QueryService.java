package org.kornspur.api.query;

import com.fasterxml.jackson.databind.JsonNode;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Clock;
import java.time.Instant;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.kornspur.api.kafka.NotReady;
import org.kornspur.api.kafka.ProcessorsClient;
import org.kornspur.api.problem.ApiProblem;
import org.kornspur.api.query.proof.DossierProofs;
import org.kornspur.api.query.view.AsOf;
import org.kornspur.api.query.view.Caution;
import org.kornspur.api.query.view.DossierView;
import org.kornspur.api.query.view.NeighboursView;
import org.kornspur.api.query.view.OwedView;
import org.kornspur.api.query.view.PageView;
import org.kornspur.api.query.view.StandingLineView;
import org.kornspur.api.query.view.StandingView;
import org.kornspur.api.query.view.TraceView;
import org.kornspur.api.readmodel.ReadModel;
import org.kornspur.api.readmodel.ReceiptTimes;
import org.kornspur.api.readmodel.ResultPage;
import org.kornspur.api.readmodel.StandingIndexRow;
import org.kornspur.api.readmodel.StandingQuery;
import org.kornspur.api.security.visibility.Visibility;
import org.kornspur.api.text.FirstReasonWords;
import org.kornspur.api.text.VerdictWords;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.proof.ProofJson;
import org.kornspur.processors.dossier.Entry;
import org.kornspur.processors.pedigree.Pedigree;
import org.kornspur.processors.pedigree.Trace;
import org.kornspur.processors.stream.IsolationJoin;
import org.kornspur.processors.stream.Topics;
import org.kornspur.standing.LotStanding;

/** Answers questions about crops and lots, for the caller of this request. */
@ApplicationScoped
public class QueryService {
  @Inject ProcessorsClient processors;
  @Inject ReadModel readModel;
  @Inject VisibleData data;
  @Inject DossierProofs proofs;
  @Inject ReceiptTimes receipts;
  @Inject RequestWords requestWords;
  private final Clock clock = Clock.systemUTC();

  /** One page of the crops and lots that match. */
  public PageView<StandingLineView> list(StandingQuery query) {
    FirstReasonWords words = requestWords.firstReasons();
    return PageView.of(data.find(query), row -> StandingLineView.of(row, words), asOf());
  }

  /** What is owed by the crops and lots that match, one page. */
  public PageView<OwedView> owed(StandingQuery query) {
    ResultPage<StandingIndexRow> rows = data.find(query);
    ResultPage<LotStanding> standings =
        new ResultPage<>(
            rows.page(),
            rows.size(),
            rows.total(),
            rows.items().stream()
                .flatMap(row -> readModel.standing(row.subject()).stream())
                .toList());
    VerdictWords words = requestWords.verdicts();
    return PageView.of(standings, standing -> OwedView.of(standing, words), asOf());
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
        readModel
            .standings()
            .row(subject)
            .map(StandingIndexRow::changedAt)
            .orElseGet(clock::instant);
    return StandingView.of(
        standing, treatmentOf(subject), receipts, changedAt, asOf(), requestWords.firstReasons());
  }

  /**
   * What the seed of a lot was treated with. It protects who handles the seed and so is told to
   * them whatever else of the lot they may see; the caller sees to it that they do handle it.
   */
  public Caution.Treatment treatmentOf(Subject lot) {
    return new SeedTreatments(processors).of(lot);
  }

  /**
   * The facts of a subject that lie in a time.
   *
   * @throws ApiProblem if no fact names it
   */
  public DossierView dossier(Subject subject, FactTimes.Range times) {
    Visibility visibility = data.visibility();
    if (!visibility.sees(subject) && !visibility.seesSingleFactsOf(subject)) {
      throw data.unknown(subject);
    }
    List<Entry> all = processors.entries(subject);
    if (!showsCutFacts(subject, visibility)) {
      all = all.stream().filter(data::sees).toList();
    }
    if (all.isEmpty()) {
      throw data.unknown(subject);
    }
    return DossierView.of(
        subject,
        all.stream().filter(times::holds).toList(),
        all,
        receipts,
        visibility,
        requestWords.words(),
        asOf());
  }

  /**
   * Whether facts that the caller sees in part are shown cut. Of own seed they are: one step of its
   * way is the grower's to know. What all share, such as a hybrid, is named by facts of others with
   * which the caller has nothing to do: neither their number nor their times are told.
   */
  private static boolean showsCutFacts(Subject subject, Visibility visibility) {
    return visibility.isWhole() || visibility.sees(subject) && subject.kind().isJudged();
  }

  /**
   * Every fact of a subject, with what proves it.
   *
   * @throws ApiProblem if no fact names it
   */
  public JsonNode proof(Subject subject) {
    return ProofJson.write(proofs.prove(subject, data.entries(subject)));
  }

  /** The same, for one subject after the other. */
  public JsonNode proof(Subject subject, DossierProofs.Series series) {
    return ProofJson.write(series.prove(subject, data.entries(subject)));
  }

  /**
   * Foreign pollen around a crop.
   *
   * @throws ApiProblem if no fact names it
   */
  public NeighboursView neighbours(Subject crop) {
    return NeighboursView.of(data.dossier(crop), IsolationJoin.REACH_M, data.visibility(), asOf());
  }

  /**
   * A walk through the pedigree.
   *
   * @param most bound on the number of subjects
   * @throws ApiProblem if nothing is known of the start
   */
  public TraceView trace(Subject start, Trace.Direction direction, int most) {
    data.require(start);
    Pedigree pedigree = data.pedigree();
    long began = System.nanoTime();
    Trace trace = Trace.walk(pedigree, start, direction, most);
    double elapsedMs = (System.nanoTime() - began) / 1e6;
    if (trace.edges().isEmpty() && data.row(start).isEmpty()) {
      throw data.unknown(start);
    }
    return view(trace, elapsedMs, asOf());
  }

  /**
   * A walk in the shape of the interface.
   *
   * @param elapsedMs time that the walk took
   */
  public TraceView view(Trace trace, double elapsedMs, AsOf asOf) {
    return TraceView.of(
        trace,
        readModel.standings()::row,
        data.visibility(),
        requestWords.firstReasons(),
        elapsedMs,
        asOf);
  }

  /** How far the data behind an answer lags; in numbers to who sees everything. */
  public AsOf asOf() {
    AsOf asOf = asOfAll();
    return data.isWhole() ? asOf : asOf.withoutNumbers(requestWords.words());
  }

  private AsOf asOfAll() {
    try {
      Map<String, Long> waiting = new LinkedHashMap<>(processors.lag());
      waiting.merge(Topics.STANDINGS.topicName(), readModel.standingsWaiting(), Long::sum);
      return AsOf.waiting(
          clock.instant(), waiting, processors.factsHeldBack(), requestWords.words());
    } catch (NotReady notTold) {
      return AsOf.unknown(clock.instant(), requestWords.words());
    }
  }

  private LotStanding standing(Subject subject) {
    return data.standing(subject).orElseThrow(() -> data.unknown(subject));
  }
}
