package org.kornspur.api.command.fact;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Clock;
import java.util.List;
import java.util.Optional;
import org.jboss.logging.Logger;
import org.kornspur.api.kafka.NotReady;
import org.kornspur.api.kafka.ProcessorsClient;
import org.kornspur.api.readmodel.ReadModel;
import org.kornspur.contract.QuarantineEntry;
import org.kornspur.contract.QuarantineOrigin;
import org.kornspur.ingest.intake.Problem;
import org.kornspur.ingest.intake.QuarantineEntries;

/** Keeps refused input in the quarantine, with its reasons. */
@ApplicationScoped
class RefusedInputs {
  private static final Logger LOG = Logger.getLogger(RefusedInputs.class);

  @Inject ProcessorsClient processors;
  @Inject ReadModel readModel;
  private final Clock clock = Clock.systemUTC();

  /** The outcome with what was sent kept in the quarantine, where it belongs there. */
  SubmissionOutcome kept(SubmissionOutcome outcome, ReadInput input) {
    return switch (outcome.kind()) {
      case REFUSED, CONFLICT -> outcome.keptAs(quarantine(outcome.problems(), input));
      case ACCEPTED, ALREADY_KNOWN, NOT_ALLOWED, UNSENT -> outcome;
    };
  }

  /**
   * The refusal stands even where its copy cannot be kept; the sender has the original. What the
   * sender sent before is not kept again, for the topic keeps only the latest of each key, and it
   * is the first that must stay.
   */
  private Optional<String> quarantine(List<Problem> problems, ReadInput input) {
    QuarantineEntry held =
        QuarantineEntries.held(
            QuarantineOrigin.HTTP, input.place(), clock.instant(), problems, null, input.utf8());
    QuarantineEntry entry =
        QuarantineEntry.newBuilder(held).setSubmittedBy(input.senderId()).build();
    try {
      if (!isKept(entry)) {
        processors.quarantine(entry);
      }
      return Optional.of(entry.getEntryId());
    } catch (RuntimeException fault) {
      LOG.warnf(fault, "Refused input of %s could not be kept in the quarantine", input.place());
      return Optional.empty();
    }
  }

  private boolean isKept(QuarantineEntry entry) {
    try {
      return readModel.quarantine().senders(entry.getEntryId()).contains(entry.getSubmittedBy());
    } catch (NotReady stillReading) {
      return false;
    }
  }
}
