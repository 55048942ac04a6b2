package org.kornspur.api.query;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.SortedMap;
import java.util.function.Predicate;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.api.kafka.ProcessorsClient;
import org.kornspur.api.problem.ApiProblem;
import org.kornspur.api.problem.RecordDetail.Hint;
import org.kornspur.api.readmodel.CauseKey;
import org.kornspur.api.readmodel.CompressedRecord;
import org.kornspur.api.readmodel.ReadModel;
import org.kornspur.api.readmodel.ResultPage;
import org.kornspur.api.readmodel.SeasonFilter;
import org.kornspur.api.readmodel.SeasonTotal;
import org.kornspur.api.readmodel.SeedValues;
import org.kornspur.api.readmodel.StandingIndexRow;
import org.kornspur.api.readmodel.StandingQuery;
import org.kornspur.api.readmodel.Worklist;
import org.kornspur.api.security.visibility.Visibility;
import org.kornspur.api.security.visibility.VisibilityService;
import org.kornspur.api.security.visibility.VisiblePedigree;
import org.kornspur.contract.QuarantineState;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.dossier.Entry;
import org.kornspur.processors.pedigree.Pedigree;
import org.kornspur.standing.LotStanding;

/**
 * The data as the caller of this request may see them. This is the one place that filters: what is
 * not visible is as if it did not exist.
 */
@ApplicationScoped
public class VisibleData {
  @Inject ProcessorsClient processors;
  @Inject ReadModel readModel;
  @Inject VisibilityService visibilityService;

  public Visibility visibility() {
    return visibilityService.visibility();
  }

  /** Whether the caller sees everything, and so may know totals. */
  public boolean isWhole() {
    return visibility().isWhole();
  }

  public boolean sees(Subject subject) {
    return visibility().sees(subject);
  }

  /** Whether all that a fact says may be shown. */
  public boolean sees(SpecificRecord fact) {
    return visibility().sees(fact);
  }

  /** Whether all that a fact says may be shown. */
  public boolean sees(Entry entry) {
    return isWhole() || sees(entry.fact());
  }

  /**
   * Ends the request as for a subject that does not exist, where the caller does not see it.
   *
   * @throws ApiProblem if it is not visible
   */
  public void require(Subject subject) {
    if (!sees(subject)) {
      throw unknown(subject);
    }
  }

  /** One page of the rows that match. */
  public ResultPage<StandingIndexRow> find(StandingQuery query) {
    return readModel.standings().find(query, seen());
  }

  /**
   * What is to be done among the rows that match.
   *
   * @param most how many of each kind to show
   */
  public Worklist worklist(StandingQuery query, int most) {
    return isWhole()
        ? readModel.standings().waiting(query, most)
        : readModel.standings().waiting(query, seen(), most);
  }

  /** How far a cause reaches; empty where nothing that is visible is not fit for it. */
  public Optional<Worklist.Cause> cause(CauseKey key) {
    return readModel.standings().cause(key, seen());
  }

  /** The crops and lots that are not fit for a cause, by id. */
  public List<StandingIndexRow> reached(CauseKey key) {
    return readModel.standings().reached(key, seen());
  }

  /** The values that some row has. */
  public SeedValues values() {
    return isWhole() ? readModel.standings().values() : readModel.standings().values(seen());
  }

  /** The seasons of a kind of subject, the latest first. */
  public List<SeasonTotal> seasons(Subject.Kind kind, SeasonFilter filter) {
    return isWhole()
        ? readModel.standings().seasons(kind, filter)
        : readModel.standings().seasons(kind, filter, seen());
  }

  /** The season of each multiplier, by id. */
  public SortedMap<String, SeasonTotal> byHolder(
      Subject.Kind kind, int cropYear, SeasonFilter filter) {
    return SeasonTotal.byHolder(
        kind,
        matching(
            row ->
                row.subject().kind() == kind
                    && row.material().filter(of -> of.getCropYear() == cropYear).isPresent()
                    && filter.matches(row)));
  }

  /** The crops that F1 seed is grown in, each with its hybrid. */
  public SortedMap<Subject, String> f1Crops() {
    SortedMap<Subject, String> crops = readModel.standings().f1Crops();
    if (!isWhole()) {
      crops.keySet().removeIf(crop -> !sees(crop));
    }
    return crops;
  }

  /** The rows that match, by id. */
  public List<StandingIndexRow> matching(Predicate<StandingIndexRow> wanted) {
    return readModel.standings().matching(wanted.and(seen()));
  }

  private Predicate<StandingIndexRow> seen() {
    Visibility visibility = visibility();
    return visibility.isWhole() ? row -> true : row -> visibility.sees(row.subject());
  }

  public Optional<StandingIndexRow> row(Subject subject) {
    return sees(subject) ? readModel.standings().row(subject) : Optional.empty();
  }

  public Optional<LotStanding> standing(Subject subject) {
    return sees(subject) ? readModel.standing(subject) : Optional.empty();
  }

  /** A standing that an index gave out. */
  public LotStanding read(CompressedRecord standing) {
    return readModel.read(standing);
  }

  /** The pedigree; it ends one step beyond what the caller sees. */
  public Pedigree pedigree() {
    return VisiblePedigree.of(processors.pedigree(), visibility());
  }

  /**
   * The whole dossier of a subject, with what parents, the hybrid and the ground told it.
   *
   * @throws ApiProblem if no fact names it
   */
  public Dossier dossier(Subject subject) {
    require(subject);
    Dossier dossier = processors.dossier(subject);
    if (dossier.entries().isEmpty()) {
      throw unknown(subject);
    }
    return dossier;
  }

  /** The facts of a subject that count; none where the caller does not see it. */
  public List<SpecificRecord> countingFacts(Subject subject) {
    return sees(subject)
        ? processors.entries(subject).stream().filter(Entry::counts).map(Entry::fact).toList()
        : List.of();
  }

  /** A fact with what became of it; empty where the caller does not see all that it says. */
  public Optional<Entry> entry(String factId) {
    return processors.registered(factId).stream()
        .flatMap(registered -> registered.subjects().stream().limit(1))
        .map(Subject::parse)
        .flatMap(subject -> processors.entries(subject).stream())
        .filter(entry -> entry.header().getFactId().equals(factId))
        .filter(this::sees)
        .findFirst();
  }

  /** Refused inputs that wait; what others sent is not counted for who does not see it. */
  public long heldInQuarantine() {
    return isWhole()
        ? readModel.quarantine().find(Set.of(QuarantineState.HELD), entry -> true, 1, 1).total()
        : 0;
  }

  /**
   * The facts of a subject, whether the caller sees them or not.
   *
   * @throws ApiProblem if no fact names it, or the caller does not see it
   */
  List<Entry> entries(Subject subject) {
    require(subject);
    List<Entry> entries = processors.entries(subject);
    if (entries.isEmpty()) {
      throw unknown(subject);
    }
    return entries;
  }

  /** The problem that no fact names a subject, with a hint where to look. */
  public ApiProblem unknown(Subject subject) {
    boolean isOtherKind = otherKind(subject).flatMap(this::row).isPresent();
    return ApiProblem.noFactNames(
        subject,
        isOtherKind
            ? Hint.OTHER_KIND
            : switch (subject.kind()) {
              case LOT, CROP -> Hint.LIST;
              case SOURCE, HYBRID, ENTERPRISE -> Hint.SEND_FACTS;
            });
  }

  private static Optional<Subject> otherKind(Subject subject) {
    return switch (subject.kind()) {
      case LOT -> Optional.of(Subject.crop(subject.id()));
      case CROP -> Optional.of(Subject.lot(subject.id()));
      case SOURCE, HYBRID, ENTERPRISE -> Optional.empty();
    };
  }
}
