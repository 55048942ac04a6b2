package org.kornspur.api.command.act;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Duration;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.kornspur.api.kafka.NotReady;
import org.kornspur.api.problem.ActDetail;
import org.kornspur.api.problem.ApiProblem;
import org.kornspur.api.problem.ProblemDocument;
import org.kornspur.api.query.VisibleData;
import org.kornspur.api.security.Caller;
import org.kornspur.contract.ActKind;
import org.kornspur.ingest.contract.Subject;

/**
 * Has a person release or suspend several lots with one entry of the password. Each lot is checked
 * and sealed for itself, and gets an act and a signature of its own, by the code that signs for
 * one.
 */
@ApplicationScoped
public class ReleaseSigning {

  /** So that a request ends in time, however far the processors are behind. */
  private static final Duration LONGEST_WAIT_OF_ALL = Duration.ofSeconds(60);

  @Inject ActSigning acts;
  @Inject VisibleData data;
  @Inject ActSettings settings;

  /** What became of one lot. */
  public sealed interface Outcome {
    Subject lot();

    record Signed(Subject lot, ActSigning.Signed act) implements Outcome {}

    /** Nothing was signed for it. */
    record LeftOut(Subject lot, ProblemDocument why) implements Outcome {}
  }

  /** Whether this site lets several lots be released at once. */
  public boolean isAllowed() {
    return settings.severalAtOnce();
  }

  /** Whether two persons must sign before a release takes effect. */
  public boolean needsTwoPersons() {
    return settings.twoPersons();
  }

  /**
   * Signs what can be signed and leaves out the rest.
   *
   * @return what became of each lot, in the order of the request
   * @throws ApiProblem if the person is not there to sign, or the site has each release signed by
   *     itself; then nothing is signed. Seed is held back all at once in any case
   */
  public List<Outcome> sign(Caller caller, ReleasesRequest request) {
    if (request.kind() == ActKind.RELEASE && !isAllowed()) {
      throw ApiProblem.refused(new ActDetail.OnlyOneAtOnce());
    }
    Map<Subject, Outcome> outcomes = new HashMap<>();
    Map<Subject, ActRequest> known = new LinkedHashMap<>();
    request
        .acts()
        .forEach(
            (lot, act) -> {
              try {
                data.dossier(lot);
                known.put(lot, act);
              } catch (ApiProblem unknown) {
                outcomes.put(lot, new Outcome.LeftOut(lot, unknown.document()));
              }
            });
    if (!known.isEmpty()) {
      acts.authenticate(known, caller);
      outcomes.putAll(signEach(caller, known));
    }
    return request.acts().keySet().stream().map(outcomes::get).toList();
  }

  /** Once the brokers take no act, the lots that follow are not tried. */
  private Map<Subject, Outcome> signEach(Caller caller, Map<Subject, ActRequest> asked) {
    Map<Subject, Outcome> outcomes = new HashMap<>();
    Optional<ProblemDocument> notReady = Optional.empty();
    long end = System.nanoTime() + LONGEST_WAIT_OF_ALL.toNanos();
    for (Map.Entry<Subject, ActRequest> each : asked.entrySet()) {
      Subject lot = each.getKey();
      if (notReady.isPresent()) {
        outcomes.put(lot, new Outcome.LeftOut(lot, notReady.get()));
        continue;
      }
      try {
        Duration left = Duration.ofNanos(Math.max(0, end - System.nanoTime()));
        Duration wait =
            left.compareTo(ActSigning.LONGEST_WAIT) < 0 ? left : ActSigning.LONGEST_WAIT;
        outcomes.put(
            lot,
            new Outcome.Signed(lot, acts.signAuthenticated(lot, caller, each.getValue(), wait)));
      } catch (NotReady late) {
        notReady = Optional.of(late.document());
        outcomes.put(lot, new Outcome.LeftOut(lot, late.document()));
      } catch (ApiProblem refused) {
        outcomes.put(lot, new Outcome.LeftOut(lot, refused.document()));
      }
    }
    return outcomes;
  }
}
