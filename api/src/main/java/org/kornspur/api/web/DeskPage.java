package org.kornspur.api.web;

import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.RawString;
import io.quarkus.qute.TemplateInstance;
import jakarta.inject.Inject;
import jakarta.ws.rs.BeanParam;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.core.Context;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.UriInfo;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.kornspur.api.command.fact.QuarantineDecisions;
import org.kornspur.api.http.IgnoredParameters;
import org.kornspur.api.http.QuarantineFilter;
import org.kornspur.api.http.StandingFilter;
import org.kornspur.api.query.QueryService;
import org.kornspur.api.query.ReleaseCandidates;
import org.kornspur.api.query.StandingHeadlines;
import org.kornspur.api.query.VisibleData;
import org.kornspur.api.query.view.AsOf;
import org.kornspur.api.readmodel.EvidenceDeadline;
import org.kornspur.api.readmodel.FloweringDue;
import org.kornspur.api.readmodel.QuarantineRow;
import org.kornspur.api.readmodel.ReceiptTimes;
import org.kornspur.api.readmodel.ResultPage;
import org.kornspur.api.readmodel.StandingQuery;
import org.kornspur.api.readmodel.Worklist;
import org.kornspur.api.security.CurrentCaller;
import org.kornspur.api.security.Permission;
import org.kornspur.api.security.RequiresPermission;
import org.kornspur.api.text.Addresses;
import org.kornspur.api.text.DomainTerms;
import org.kornspur.api.text.PageTexts;
import org.kornspur.contract.QuarantineState;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.standing.GateVerdict;
import org.kornspur.standing.LotStanding;

/** Today: what needs quality now, one card a cause, worst first. */
@Path("/desk")
public class DeskPage {
  private static final int SHOWN = 20;
  private static final int SHOWN_DISPATCHED = 8;
  private static final int SHOWN_REFUSED = 3;

  @Inject PageFrames pages;
  @Inject QueryService queries;
  @Inject IgnoredParameters ignored;
  @Inject VisibleData data;
  @Inject QuarantineDecisions quarantine;
  @Inject StandingHeadlines headlines;
  @Inject ReceiptTimes receipts;
  @Inject CauseCards cards;
  @Inject ReleaseCandidates candidates;
  @Inject CurrentCaller caller;

  @CheckedTemplate(basePath = "web")
  static class Templates {
    static native TemplateInstance desk(
        PageFrame page, DeskPageView desk, Filters filters, boolean mayNote, boolean maySign);
  }

  @GET
  @RequiresPermission(Permission.READ_DESK)
  @Produces(MediaType.TEXT_HTML + ";charset=UTF-8")
  public String desk(@BeanParam StandingFilter filter, @Context UriInfo uri) {
    AsOf asOf = queries.asOf();
    DeskPageView desk =
        desk(
            filter.query(Set.of(Subject.Kind.LOT, Subject.Kind.CROP), false, ignored.parameters()));
    return pages.render(
        Templates.desk(
            pages.around(NavigationItem.DESK, asOf),
            desk,
            Filters.of(uri, data.values(), pages.words().terms()),
            caller.get().may(Permission.NOTE_CAUSES),
            caller.get().may(Permission.SIGN_ACTS)));
  }

  /** The page for what a question leaves; of states and gates it asks itself. */
  private DeskPageView desk(StandingQuery asked) {
    Worklist waiting = data.worklist(anyStanding(asked), SHOWN);
    List<CauseCard> causes = waiting.causes().stream().map(cards::of).toList();
    List<DeskPageView.Owed> owed = owed(waiting.owed());
    List<DeskPageView.Dispatched> dispatched =
        dispatched(waiting.dispatchedUnreleased()).stream().limit(SHOWN_DISPATCHED).toList();
    ResultPage<QuarantineRow> refused =
        quarantine.find(new QuarantineFilter.Query(Set.of(QuarantineState.HELD), 1, SHOWN_REFUSED));
    return new DeskPageView(
        new DeskPageView.Counts(
            candidates.find(anyStanding(asked), 1, lot -> true).total(),
            waiting.allOwed(),
            refused.total(),
            waiting.dispatchedUnreleased().total()),
        releases(waiting.suspended()),
        more(waiting.suspended()),
        causes,
        waiting.allCauses() - causes.size(),
        owed,
        waiting.allOwed() - owed.stream().mapToInt(one -> one.pieces().size()).sum(),
        releases(waiting.proposed()),
        more(waiting.proposed()),
        dispatched,
        waiting.dispatchedUnreleased().total() - dispatched.size(),
        refused.items().stream().map(row -> QuarantinePage.Line.of(row, pages.words())).toList());
  }

  private static StandingQuery anyStanding(StandingQuery asked) {
    return new StandingQuery(
        EnumSet.of(Subject.Kind.LOT, Subject.Kind.CROP),
        Set.of(),
        Set.of(),
        asked.hybridId(),
        asked.seedId(),
        asked.category(),
        asked.cropYear(),
        asked.holder(),
        asked.rulebookId(),
        Optional.empty(),
        Optional.empty(),
        false,
        asked.idPrefix(),
        StandingQuery.Order.WORST,
        1,
        SHOWN);
  }

  private static int more(ResultPage<?> slice) {
    return slice.total() - slice.items().size();
  }

  private List<DeskPageView.Owed> owed(List<Worklist.Owed> soonestFirst) {
    LocalDate today = LocalDate.now(pages.words().form().zone());
    List<DeskPageView.Owed> shown = new ArrayList<>();
    int left = SHOWN;
    for (Worklist.Owed one : soonestFirst) {
      for (DeskPageView.Owed owed : owed(one, today, left)) {
        shown.add(owed);
        left -= owed.pieces().size();
      }
    }
    return List.copyOf(shown);
  }

  /** At most so many pieces, together where they are due together. */
  private List<DeskPageView.Owed> owed(Worklist.Owed owed, LocalDate today, int most) {
    LotStanding standing = data.read(owed.standing());
    Subject subject = owed.until().subject();
    Map<String, List<DeskPageView.Piece>> byDue = new LinkedHashMap<>();
    standing.getVerdicts().stream()
        .filter(verdict -> owed.until().holds(verdict, standing))
        .sorted(Comparator.comparing(verdict -> terms().gate(verdict.getGate())))
        .limit(most)
        .forEach(
            verdict ->
                byDue
                    .computeIfAbsent(
                        dueText(owed.until(), verdict, today), due -> new ArrayList<>())
                    .add(
                        new DeskPageView.Piece(
                            terms().gate(verdict.getGate()),
                            new RawString(pages.words().verdicts().evidenceHtml(verdict)))));
    String href = Addresses.pageOf(subject);
    String refusedHref = quarantine.waitingThatName(subject).isEmpty() ? "" : href + "#refused";
    boolean urgent = owed.until().due().filter(due -> due.isUrgent(today)).isPresent();
    return byDue.entrySet().stream()
        .map(
            due ->
                new DeskPageView.Owed(
                    headlines.name(subject),
                    href,
                    due.getKey(),
                    urgent,
                    due.getValue(),
                    refusedHref))
        .toList();
  }

  private DomainTerms terms() {
    return pages.words().terms();
  }

  private String dueText(EvidenceDeadline until, GateVerdict verdict, LocalDate today) {
    PageTexts texts = pages.words().texts("desk");
    return until
        .due()
        .map(one -> when(one, today, texts))
        .orElseGet(
            () ->
                FloweringDue.isSeenOnTheField(verdict.getGate(), until.subject())
                    ? texts.of("floweringUnknown")
                    : texts.of("beforeRelease"));
  }

  private String when(FloweringDue due, LocalDate today, PageTexts texts) {
    long left = due.daysLeft(today);
    String written = pages.words().form().day(due.day());
    String days = pages.words().form().count(left);
    if (due.beforeFlowering()) {
      return left >= 0 ? texts.of("flowersFrom", written, days) : texts.of("flowersSince", written);
    }
    return left >= 0 ? texts.of("flowersUntil", written, days) : texts.of("floweredUntil", written);
  }

  private List<DeskPageView.Suspended> releases(ResultPage<Worklist.Release> releases) {
    return releases.items().stream()
        .map(
            release -> {
              LotStanding standing = data.read(release.standing());
              Subject lot = release.lot().subject();
              return new DeskPageView.Suspended(
                  lot.id(),
                  Addresses.pageOf(lot),
                  receipts.since(standing.getRelease()),
                  pages.words().verdicts().whyHtml(standing.getRelease()).map(RawString::new));
            })
        .toList();
  }

  private List<DeskPageView.Dispatched> dispatched(ResultPage<Worklist.Release> releases) {
    return releases.items().stream()
        .map(
            release ->
                new DeskPageView.Dispatched(
                    release.lot().subject().id(),
                    Addresses.pageOf(release.lot().subject()),
                    release.lot().state(),
                    data.read(release.standing()).getRelease().getDispatchedUnreleasedKg()))
        .toList();
  }
}
