package org.kornspur.api.command.act;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.Optional;
import java.util.UUID;
import org.jboss.logging.Logger;
import org.kornspur.api.kafka.ProcessorsClient;
import org.kornspur.api.kafka.SiteKeys;
import org.kornspur.api.security.limit.RateLimiter;
import org.kornspur.contract.ActKind;
import org.kornspur.contract.Attestation;
import org.kornspur.contract.FactHeader;
import org.kornspur.contract.RefusalGround;
import org.kornspur.contract.RefusedAct;
import org.kornspur.ingest.attestation.SignedActs;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.intake.Problem;

/**
 * Puts refused acts on record, among the facts of the lot: who tried what, when, and why it was
 * refused.
 *
 * <p>Source: 21 CFR 11.10(f) and (g), system checks and authority checks; 11.300(d), attempts at
 * unauthorized use are reported.
 */
@ApplicationScoped
class RefusedActRecorder {
  private static final Logger LOG = Logger.getLogger(RefusedActRecorder.class);
  private static final int LONGEST = 1900;

  /**
   * Of one person on one lot in an hour; a record more would tell nothing new, and stays for ever.
   */
  static final int MOST_AN_HOUR = 20;

  @Inject ProcessorsClient processors;
  @Inject SiteKeys keys;
  private final Clock clock = Clock.systemUTC();
  private final RateLimiter recorded = new RateLimiter(MOST_AN_HOUR, Duration.ofHours(1));

  /**
   * Records one. The refusal stands even where it cannot be recorded; the log then says so, as it
   * does where one person is refused again and again.
   */
  void record(
      Subject subject,
      String personId,
      ActKind kind,
      Optional<String> reason,
      RefusalGround ground,
      String refusal) {
    Instant now = clock.instant().truncatedTo(ChronoUnit.MILLIS);
    RefusedAct refused =
        new RefusedAct(
            new FactHeader(
                "act-refused-" + UUID.randomUUID(),
                personId,
                now,
                now,
                ActFacts.DOCUMENT,
                null,
                null),
            subject.kind() == Subject.Kind.LOT ? subject.id() : null,
            subject.kind() == Subject.Kind.CROP ? subject.id() : null,
            kind,
            reason.orElse(null),
            ground,
            Problem.described(refusal, LONGEST),
            new Attestation("", ""));
    LOG.warnf("%s of %s by %s refused: %s", kind, subject, personId, ground);
    if (recorded.take(personId + "|" + subject).isPresent()) {
      LOG.warnf(
          "%s was refused %d times on %s within an hour; this refusal stands in this log only",
          personId, MOST_AN_HOUR, subject);
      return;
    }
    try {
      processors.publish(SignedActs.attest(refused, keys.signing()));
    } catch (RuntimeException fault) {
      LOG.errorf(fault, "Refused act of %s on %s could not be put on record", personId, subject);
    }
  }
}
