package org.kornspur.api.command.act;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.ws.rs.core.Response;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.api.kafka.ProcessorsClient;
import org.kornspur.api.kafka.RulesInForce;
import org.kornspur.api.kafka.SiteKeys;
import org.kornspur.api.problem.ActDetail;
import org.kornspur.api.problem.ApiProblem;
import org.kornspur.api.problem.ProblemDocument;
import org.kornspur.api.problem.ProblemKind;
import org.kornspur.api.query.QueryService;
import org.kornspur.api.query.RequestWords;
import org.kornspur.api.query.VisibleData;
import org.kornspur.api.security.Caller;
import org.kornspur.api.security.login.ReAuthentication;
import org.kornspur.contract.ActKind;
import org.kornspur.contract.RefusalGround;
import org.kornspur.contract.RefusedAct;
import org.kornspur.contract.Signature;
import org.kornspur.ingest.attestation.SignedActs;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.dossier.Entry;
import org.kornspur.processors.release.ActRules;
import org.kornspur.processors.release.ReleaseSheet;
import org.kornspur.processors.release.SignedAct;

/**
 * Has persons sign acts.
 *
 * <p>The signature shows the printed name, the time and the meaning (21 CFR 11.50(a)), and these
 * stand in every readable form of the act (11.50(b)); it is bound to what was signed by the seal,
 * and the whole act by the server's key, so that it cannot be cut out or carried over (11.70). Acts
 * on one subject are signed one after the other on this instance; with several instances the stream
 * is the judge: it takes acts by the time of their signing, and one that does not fit has no
 * effect.
 */
@ApplicationScoped
public class ActSigning {
  private static final int STRIPES = 64;
  static final Duration LONGEST_WAIT = Duration.ofSeconds(5);

  @Inject ProcessorsClient processors;
  @Inject VisibleData data;
  @Inject QueryService queries;
  @Inject SiteKeys keys;
  @Inject ReAuthentication proof;
  @Inject SignerNames names;
  @Inject ServedReleaseSheets served;
  @Inject RefusedActRecorder refusals;
  @Inject ActSettings settings;
  @Inject RequestWords requestWords;
  @Inject RulesInForce rules;
  private final Object[] stripes =
      Stream.generate(Object::new).limit(STRIPES).toArray(Object[]::new);
  private final Clock clock = Clock.systemUTC();

  /**
   * What a person would sign now.
   *
   * @throws ApiProblem if no fact names the subject
   */
  ReleaseSheet sheet(Subject subject) {
    ReleaseSheet sheet = ReleaseSheet.of(data.dossier(subject), rules.judge()::assess);
    served.keep(sheet);
    return sheet;
  }

  /**
   * The same for a person to read.
   *
   * @param signerId the caller
   */
  public ReleaseSheetView sheetFor(Subject subject, String signerId) {
    return ReleaseSheetView.of(
        sheet(subject),
        queries.view(subject),
        signerId,
        this::signaturesNeeded,
        requestWords.words());
  }

  private int signaturesNeeded(ActKind kind) {
    return kind == ActKind.RELEASE && settings.twoPersons() ? 2 : 1;
  }

  /** The acts on a subject and the refused ones, in the order of their time. */
  public List<ActView> history(Subject subject) {
    Dossier dossier = data.dossier(subject);
    List<Entry> acts =
        dossier.entries().stream().filter(entry -> FactType.of(entry.fact()).isAct()).toList();
    if (acts.isEmpty()) {
      return List.of();
    }
    ReleaseSheet now = ReleaseSheet.of(dossier, rules.judge()::assess);
    return acts.stream().map(entry -> view(entry, now)).toList();
  }

  /**
   * An act that was signed and kept.
   *
   * @param inDossier whether the processors have taken it in by now
   */
  public record Signed(ActView act, boolean inDossier) {

    /** The status that tells of it. */
    public Response.Status status() {
      return inDossier ? Response.Status.CREATED : Response.Status.ACCEPTED;
    }
  }

  /**
   * Signs.
   *
   * @throws ApiProblem if the person may not, or the act does not follow on the state of the lot;
   *     that is put on record
   */
  public Signed sign(Subject subject, Caller caller, ActRequest request) {
    data.dossier(subject);
    authenticate(Map.of(subject, request), caller);
    return signAuthenticated(subject, caller, request, LONGEST_WAIT);
  }

  /**
   * Signs for a person whose presence is proved already.
   *
   * @param longestWait how long to wait until the act is in the dossier
   * @throws ApiProblem as {@link #sign}
   */
  Signed signAuthenticated(
      Subject subject, Caller caller, ActRequest request, Duration longestWait) {
    synchronized (stripes[Math.floorMod(subject.hashCode(), STRIPES)]) {
      ReleaseSheet sheet = ReleaseSheet.of(data.dossier(subject), rules.judge()::assess);
      requireSameSeal(caller, request, sheet);
      ActRules.refusal(sheet, request.wish(), caller.personId(), LocalDate.now(clock))
          .ifPresent(
              refusal -> {
                String why = requestWords.words().plain(refusal);
                record(subject, caller, request, RefusalGround.OUT_OF_SEQUENCE, why);
                throw new ApiProblem(
                    ProblemKind.ACT_OUT_OF_SEQUENCE, new ActDetail.OutOfSequence(why));
              });
      Instant now = clock.instant().truncatedTo(ChronoUnit.MILLIS);
      Signature signature =
          sheet.signature(
              caller.personId(),
              names.digestOf(caller),
              request.meaning(),
              now,
              signaturesNeeded(request.kind()));
      SpecificRecord act = ActFacts.recordable(request, sheet, signature, keys.signing());
      processors.publish(act);
      boolean counts = awaitInDossier(subject, act, longestWait);
      return new Signed(view(new Entry(act, Optional.empty()), sheet), counts);
    }
  }

  /**
   * Makes sure once, for acts asked for together, that the person is there.
   *
   * @param asked the acts by their subjects, at least one; all with the same password
   * @throws ApiProblem if the proof is missing or wrong; that is put on record for each subject
   */
  void authenticate(Map<Subject, ActRequest> asked, Caller caller) {
    try {
      proof.requireToSign(caller, asked.values().iterator().next().password());
    } catch (ApiProblem notProved) {
      asked.forEach(
          (subject, request) ->
              record(
                  subject,
                  caller,
                  request,
                  RefusalGround.NOT_AUTHENTICATED,
                  notProved.getMessage()));
      throw notProved;
    }
  }

  private void requireSameSeal(Caller caller, ActRequest request, ReleaseSheet sheet) {
    if (!request.seal().equals(sheet.seal().hex())) {
      ApiProblem changed =
          new ApiProblem(
              ProblemDocument.of(
                  ProblemKind.SEAL_CHANGED,
                  new ActDetail.OtherSeal(
                      request.seal(), sheet.dossier().subject(), sheet.seal().hex()),
                  served.difference(request.seal(), sheet)));
      record(
          sheet.dossier().subject(),
          caller,
          request,
          RefusalGround.SEAL_CHANGED,
          changed.getMessage());
      throw changed;
    }
  }

  private void record(
      Subject subject, Caller caller, ActRequest request, RefusalGround ground, String why) {
    refusals.record(
        subject, caller.personId(), request.kind(), Optional.of(request.reason()), ground, why);
  }

  /**
   * Waits, so that who signs next, and who reads next, meets the act.
   *
   * @return whether it is in the dossier; where it is not yet, the brokers keep it all the same
   */
  private boolean awaitInDossier(Subject subject, SpecificRecord act, Duration longestWait) {
    String actId = FactType.idOf(act);
    long end = System.nanoTime() + longestWait.toNanos();
    while (System.nanoTime() - end < 0) {
      boolean arrived =
          processors.entries(subject).stream()
              .anyMatch(entry -> entry.header().getFactId().equals(actId));
      if (arrived) {
        return true;
      }
      try {
        TimeUnit.MILLISECONDS.sleep(20);
      } catch (InterruptedException interrupted) {
        Thread.currentThread().interrupt();
        return false;
      }
    }
    return false;
  }

  private ActView view(Entry entry, ReleaseSheet now) {
    boolean verifies = SignedActs.verifies(entry.fact(), keys.trusted());
    if (entry.fact() instanceof RefusedAct refused) {
      return ActView.of(refused, verifies, requestWords.words());
    }
    SignedAct act = SignedAct.of(entry.fact()).orElseThrow();
    Signature signature = act.signature();
    return ActView.of(
        entry,
        act,
        names.printed(signature.getSignerId(), signature.getSignerNameDigest()),
        verifies,
        now.isSealedBy(signature.getSeal()),
        requestWords.words());
  }
}
