package org.kornspur.api.web;

import jakarta.enterprise.context.RequestScoped;
import jakarta.inject.Inject;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.kornspur.api.command.act.ActSigning;
import org.kornspur.api.command.act.ReleaseSheetView;
import org.kornspur.api.command.act.ReleasesRequest;
import org.kornspur.api.problem.AddressDetail;
import org.kornspur.api.problem.ApiProblem;
import org.kornspur.api.query.VisibleData;
import org.kornspur.api.query.view.StandingLineView;
import org.kornspur.api.readmodel.CauseKey;
import org.kornspur.api.readmodel.ReadModel;
import org.kornspur.api.readmodel.StandingIndexRow;
import org.kornspur.api.security.CurrentCaller;
import org.kornspur.api.security.Permission;
import org.kornspur.api.text.Addresses;
import org.kornspur.api.text.PageTexts;
import org.kornspur.contract.ActKind;
import org.kornspur.contract.CauseNote;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.problem.Given;
import org.kornspur.processors.pedigree.Edge;
import org.kornspur.processors.pedigree.Pedigree;
import org.kornspur.standing.ReleaseStep;

/** Gathers what the page of a cause shows, for who asks. */
@RequestScoped
public class CausePageAssembler {
  private static final int MOST_LOTS = ReleasesRequest.MOST;

  /** A letter is opened by an address, which must not be long. */
  private static final int MOST_NAMED = 40;

  private static final Set<ReleaseStep> RELEASED =
      Set.of(ReleaseStep.RELEASED, ReleaseStep.PROPOSED, ReleaseStep.SUSPENDED);

  @Inject PageFrames pages;
  @Inject VisibleData data;
  @Inject ReadModel readModel;
  @Inject CauseCards cards;
  @Inject ActSigning acts;
  @Inject CurrentCaller caller;

  /** What was sent before, to be shown again. */
  record Sent(
      List<String> noteRefusals,
      String text,
      Optional<ReleasePageView.Done> done,
      List<String> refusals,
      Set<String> chosen,
      String reason,
      Optional<String> meaning) {
    static final Sent NOTHING = note(List.of(), "");

    static Sent note(List<String> refusals, String text) {
      return new Sent(refusals, text, Optional.empty(), List.of(), Set.of(), "", Optional.empty());
    }

    static Sent signed(ReleasePageView.Done done) {
      return new Sent(List.of(), "", Optional.of(done), List.of(), Set.of(), "", Optional.empty());
    }

    static Sent refused(List<String> refusals, Set<String> chosen, String reason, String meaning) {
      return new Sent(
          List.of(), "", Optional.empty(), refusals, chosen, reason, Optional.of(meaning));
    }
  }

  /**
   * What the page shows.
   *
   * @throws ApiProblem if nothing is not fit for it, and nobody ever noted anything about it
   */
  CausePageView of(CauseKey key, Sent sent) {
    List<StandingIndexRow> rows = data.reached(key);
    List<CausePageView.Note> notes = notes(key);
    if (rows.isEmpty() && notes.isEmpty()) {
      throw ApiProblem.notFound(new AddressDetail.NoCause(Given.text(key.text(), false)));
    }
    Optional<CauseCard> card = data.cause(key).map(cards::of);
    List<StandingIndexRow> lots =
        rows.stream()
            .filter(row -> row.subject().kind() == Subject.Kind.LOT)
            .sorted(Comparator.comparing(row -> !RELEASED.contains(row.release())))
            .toList();
    Map<Subject, List<Edge>> dispatched = dispatched(lots);
    List<CausePageView.Lot> lines =
        lots.stream().limit(MOST_LOTS).map(row -> line(row, dispatched, sent)).toList();
    return new CausePageView(
        card.map(one -> one.name() + ": " + one.wrong()).orElseGet(() -> cards.name(key)),
        CauseCards.href(key),
        card,
        notes,
        rows.stream()
            .filter(row -> row.subject().kind() == Subject.Kind.CROP)
            .map(this::view)
            .map(
                crop ->
                    new CausePageView.Crop(crop.id(), Addresses.page(crop.href()), crop.reason()))
            .toList(),
        lines,
        lots.size() - lines.size(),
        customers(dispatched),
        mail(card, lots),
        new CausePageView.Signing(
            lines.stream().filter(line -> line.choice().isPresent()).count(),
            sent.done(),
            sent.refusals(),
            sent.reason(),
            sent.meaning().orElseGet(() -> texts().of("usualMeaning"))),
        sent.noteRefusals(),
        sent.text());
  }

  SigningResults results() {
    return new SigningResults(pages, acts, ActKind.SUSPEND, caller.get().personId());
  }

  private List<CausePageView.Note> notes(CauseKey key) {
    List<CausePageView.Note> notes =
        new ArrayList<>(readModel.causeNotes().of(key).stream().map(this::note).toList());
    Collections.reverse(notes);
    return notes;
  }

  private CausePageView.Note note(CauseNote note) {
    return new CausePageView.Note(
        texts().of("done", note.getKind()),
        note.getWrittenBy(),
        note.getWrittenAt(),
        note.getText());
  }

  private StandingLineView view(StandingIndexRow row) {
    return StandingLineView.of(row, pages.words().firstReasons());
  }

  private CausePageView.Lot line(
      StandingIndexRow row, Map<Subject, List<Edge>> dispatched, Sent sent) {
    Subject lot = row.subject();
    Optional<ReleaseSheetView> sheet =
        RELEASED.contains(row.release()) && caller.get().may(Permission.SIGN_ACTS)
            ? Optional.of(acts.sheetFor(lot, caller.get().personId()))
            : Optional.empty();
    Optional<String> whyNot = sheet.flatMap(results()::whyNot);
    Optional<String> choice =
        sheet.filter(one -> whyNot.isEmpty()).map(one -> one.seal() + " " + lot.id());
    return new CausePageView.Lot(
        view(row),
        Addresses.pageOf(lot),
        dispatched.getOrDefault(lot, List.of()).stream().mapToDouble(Edge::massKg).sum(),
        choice,
        choice.filter(sent.chosen()::contains).isPresent(),
        whyNot);
  }

  private Map<Subject, List<Edge>> dispatched(List<StandingIndexRow> lots) {
    Pedigree pedigree = data.pedigree();
    Map<Subject, List<Edge>> dispatched = new TreeMap<>();
    for (StandingIndexRow row : lots) {
      List<Edge> edges =
          pedigree.edgesOutOf(row.subject()).stream()
              .filter(edge -> edge.child().kind() == Subject.Kind.ENTERPRISE)
              .toList();
      if (!edges.isEmpty()) {
        dispatched.put(row.subject(), edges);
      }
    }
    return dispatched;
  }

  private List<CausePageView.Customer> customers(Map<Subject, List<Edge>> dispatched) {
    Map<Subject, List<Edge>> byCustomer =
        dispatched.values().stream()
            .flatMap(List::stream)
            .collect(Collectors.groupingBy(Edge::child, TreeMap::new, Collectors.toList()));
    return byCustomer.entrySet().stream()
        .map(one -> customer(one.getKey(), one.getValue()))
        .sorted(Comparator.comparingDouble(CausePageView.Customer::massKg).reversed())
        .toList();
  }

  private CausePageView.Customer customer(Subject customer, List<Edge> got) {
    return new CausePageView.Customer(
        pages.words().words().named(customer),
        got.stream().mapToDouble(Edge::massKg).sum(),
        got.stream()
            .map(Edge::parent)
            .distinct()
            .sorted()
            .map(lot -> new CausePageView.Link(lot.id(), Addresses.pageOf(lot)))
            .toList(),
        got.stream().map(Edge::happenedAt).max(Comparator.naturalOrder()).orElse(Instant.EPOCH));
  }

  /** The letter names cause and lots; whom it goes to, and what is asked, the reader writes. */
  private String mail(Optional<CauseCard> card, List<StandingIndexRow> lots) {
    String subject = card.map(one -> one.name() + ": " + one.wrong()).orElse("");
    String named =
        lots.stream()
            .limit(MOST_NAMED)
            .map(row -> row.subject().id())
            .collect(Collectors.joining(", "));
    return "mailto:?subject="
        + Addresses.part(subject)
        + "&body="
        + Addresses.part(texts().of("letter", subject, named));
  }

  private PageTexts texts() {
    return pages.words().texts("desk");
  }
}
