package org.kornspur.api.command.fact;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.api.command.fact.BodyReader.Item;
import org.kornspur.api.problem.ApiProblem;
import org.kornspur.api.problem.ProblemLanguage;
import org.kornspur.api.problem.ProblemView;
import org.kornspur.api.query.view.BatchView;
import org.kornspur.api.query.view.ReceiptView;
import org.kornspur.api.query.view.SubjectLink;
import org.kornspur.api.security.CurrentCaller;
import org.kornspur.api.text.Addresses;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.contract.SubjectsNamed;
import org.kornspur.ingest.json.FactParser;

/** Answers for the facts of a request: a receipt for one, a list of outcomes for many. */
@ApplicationScoped
public class SubmissionAnswers {
  @Inject FactSubmission submission;
  @Inject CurrentCaller caller;
  @Inject ProblemLanguage language;

  /**
   * Takes in one fact as JSON.
   *
   * @param requestId under which refused input is found in the quarantine
   * @throws ApiProblem if it is refused
   */
  public ReceiptView json(byte[] utf8, String requestId) {
    return receipt(submission.admit(read(utf8, "request " + requestId)));
  }

  /**
   * Takes in a list of facts as JSON.
   *
   * @param requestId under which refused input is found in the quarantine
   * @return empty where it is no list
   * @throws ApiProblem if the list cannot be read
   */
  public Optional<BatchView> list(byte[] utf8, String requestId) {
    return BodyReader.list(utf8).map(items -> batch(items, requestId));
  }

  /**
   * Takes in NDJSON: a fact a line.
   *
   * @param requestId under which refused input is found in the quarantine
   * @throws ApiProblem if it holds no line, or too many
   */
  public BatchView lines(byte[] utf8, String requestId) {
    return batch(BodyReader.lines(utf8), requestId);
  }

  /**
   * The receipt for a fact that went in.
   *
   * @throws ApiProblem for one that did not
   */
  public static ReceiptView receipt(SubmissionOutcome outcome) {
    SpecificRecord fact = outcome.requireIn();
    return ReceiptView.of(FactType.idOf(fact), outcome.kind().word(), SubjectsNamed.of(fact));
  }

  private ReadInput read(byte[] utf8, String place) {
    return new ReadInput(FactParser.accept(utf8), utf8, place, caller.get().personId());
  }

  private BatchView batch(List<Item> items, String requestId) {
    List<SubmissionOutcome> outcomes =
        submission.admit(
            items.stream()
                .map(item -> read(item.utf8(), "request " + requestId + item.place()))
                .toList());
    List<BatchView.Item> views = new ArrayList<>(items.size());
    for (int at = 0; at < items.size(); at++) {
      views.add(view(items.get(at), outcomes.get(at)));
    }
    return new BatchView(
        requestId,
        count(views, "accepted"),
        count(views, "already-known"),
        count(views, "refused"),
        count(views, "unsent"),
        views);
  }

  private static long count(List<BatchView.Item> views, String outcome) {
    return views.stream().filter(view -> view.outcome().equals(outcome)).count();
  }

  private BatchView.Item view(Item item, SubmissionOutcome outcome) {
    boolean isIn = outcome.problems().isEmpty();
    return new BatchView.Item(
        item.line(),
        item.index(),
        outcome.kind().word(),
        outcome.factId().orElse(null),
        isIn ? SubjectsNamed.of(outcome.requireIn()).stream().map(SubjectLink::of).toList() : null,
        isIn ? null : ProblemView.all(outcome.problems(), language.words()),
        outcome.quarantineId().map(Addresses::ofEntry).orElse(null));
  }
}
