package org.kornspur.api.command.fact;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.ArrayList;
import java.util.List;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.api.command.fact.BodyReader.Body;
import org.kornspur.api.command.fact.Item.Place;
import org.kornspur.api.problem.ApiProblem;
import org.kornspur.api.problem.BodyProblem;
import org.kornspur.api.problem.ProblemKind;
import org.kornspur.api.problem.ProblemLanguage;
import org.kornspur.api.problem.ProblemView;
import org.kornspur.api.query.view.BatchView;
import org.kornspur.api.query.view.ReceiptView;
import org.kornspur.api.query.view.SubjectLink;
import org.kornspur.api.text.Addresses;
import org.kornspur.ingest.contract.SubjectsNamed;
import org.kornspur.ingest.intake.Problem;

/** Answers for the facts of a request: a receipt for one, a list of outcomes for many. */
@ApplicationScoped
public class SubmissionAnswers {
  @Inject FactSubmission submission;
  @Inject ProblemLanguage language;

  /** What is answered. */
  public sealed interface Answer {

    /** For one fact that went in. */
    record Receipt(ReceiptView view) implements Answer {}

    /** For many. */
    record Batch(BatchView view) implements Answer {}
  }

  /**
   * Takes in JSON: one fact, or a list.
   *
   * @param requestId under which refused input is found in the quarantine
   * @throws ApiProblem if the one fact is refused, or the list cannot be read
   */
  public Answer json(byte[] utf8, String requestId) {
    Body body = BodyReader.json(utf8);
    if (body instanceof Body.One one) {
      return new Answer.Receipt(receipt(one.item().utf8().bytes(), "request " + requestId));
    }
    return batch(((Body.Many) body).items(), requestId);
  }

  /**
   * Takes in NDJSON: a fact a line.
   *
   * @param requestId under which refused input is found in the quarantine
   * @throws ApiProblem if it holds no line, or too many
   */
  public Answer lines(byte[] utf8, String requestId) {
    return batch(((Body.Many) BodyReader.lines(utf8)).items(), requestId);
  }

  private ReceiptView receipt(byte[] utf8, String place) {
    return receipt(submission.admit(utf8, place));
  }

  /**
   * The receipt for a fact that went in.
   *
   * @throws ApiProblem for one that did not
   */
  public static ReceiptView receipt(Outcome outcome) {
    if (outcome instanceof Outcome.Refused refused) {
      throw new ApiProblem(ProblemKind.INVALID_FACT, refused.problems());
    }
    if (outcome instanceof Outcome.NotAllowed notAllowed) {
      throw new ApiProblem(ProblemKind.NOT_YOURS_TO_BRING, notAllowed.problems());
    }
    if (outcome instanceof Outcome.Conflict conflict) {
      throw new ApiProblem(ProblemKind.FACT_CONFLICT, conflict.problems());
    }
    if (outcome instanceof Outcome.Unsent unsent) {
      throw new ApiProblem(ProblemKind.NOT_READY, unsent.reason());
    }
    SpecificRecord fact =
        outcome instanceof Outcome.Accepted accepted
            ? accepted.fact()
            : ((Outcome.AlreadyKnown) outcome).fact();
    return ReceiptView.of(
        Outcome.factId(fact), FactSubmission.word(outcome), SubjectsNamed.of(fact));
  }

  private Answer batch(List<Item> items, String requestId) {
    List<Outcome> outcomes = submission.admit(items, "request " + requestId);
    List<BatchView.Item> views = new ArrayList<>(items.size());
    for (int at = 0; at < items.size(); at++) {
      views.add(view(items.get(at).place(), outcomes.get(at)));
    }
    return new Answer.Batch(
        new BatchView(
            requestId,
            count(views, "accepted"),
            count(views, "already-known"),
            count(views, "refused"),
            count(views, "unsent"),
            views));
  }

  private static long count(List<BatchView.Item> views, String outcome) {
    return views.stream().filter(view -> view.outcome().equals(outcome)).count();
  }

  private List<ProblemView> views(List<Problem> problems) {
    return ProblemView.all(problems, language.words());
  }

  private BatchView.Item view(Place place, Outcome outcome) {
    Integer line = place instanceof Place.Line at ? at.number() : null;
    Integer index = place instanceof Place.Index at ? at.number() : null;
    String word = FactSubmission.word(outcome);
    if (outcome instanceof Outcome.Refused refused) {
      return new BatchView.Item(
          line,
          index,
          word,
          null,
          null,
          views(refused.problems()),
          refused.quarantineId().map(Addresses::ofEntry).orElse(null));
    }
    if (outcome instanceof Outcome.NotAllowed notAllowed) {
      return new BatchView.Item(
          line, index, word, notAllowed.factId(), null, views(notAllowed.problems()), null);
    }
    if (outcome instanceof Outcome.Conflict conflict) {
      return new BatchView.Item(
          line,
          index,
          word,
          conflict.factId(),
          null,
          views(conflict.problems()),
          conflict.quarantineId().map(Addresses::ofEntry).orElse(null));
    }
    if (outcome instanceof Outcome.Unsent unsent) {
      Problem problem = Problem.of("", unsent.reason(), new BodyProblem.NotTaken());
      return new BatchView.Item(
          line, index, word, Outcome.factId(unsent.fact()), null, views(List.of(problem)), null);
    }
    SpecificRecord fact =
        outcome instanceof Outcome.Accepted accepted
            ? accepted.fact()
            : ((Outcome.AlreadyKnown) outcome).fact();
    return new BatchView.Item(
        line,
        index,
        word,
        Outcome.factId(fact),
        SubjectsNamed.of(fact).stream().map(SubjectLink::of).toList(),
        null,
        null);
  }
}
