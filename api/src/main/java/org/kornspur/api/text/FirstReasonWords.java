package org.kornspur.api.text;

import java.util.Locale;
import java.util.Map;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.standing.LotStanding;
import org.kornspur.standing.StandingState;

/** Writes the {@link FirstReason} of a standing, alone or in a sentence with the standing. */
public record FirstReasonWords(VerdictWords verdicts) {

  /** The standing in one sentence, with the first reason for it. */
  public String sentence(LotStanding standing) {
    return verdicts
        .words()
        .text(
            "standing." + standing.getState(),
            Map.of(
                "subject",
                capital(verdicts.words().named(Subject.parse(standing.getSubject()))),
                "reason",
                reason(standing)));
  }

  public String reason(LotStanding standing) {
    return reason(FirstReason.of(standing));
  }

  /** A reason in one line. */
  public String reason(FirstReason reason) {
    return reason
        .verdict()
        .map(verdicts::line)
        .or(() -> reason.trouble().map(verdicts::line))
        .orElseGet(
            () ->
                reason.state() == StandingState.FIT
                    ? verdicts.words().text("standing.all-met", Map.of("gates", reason.gates()))
                    : verdicts.words().text("standing.no-reason", Map.of()));
  }

  /** The same as HTML, ids as links. */
  public String reasonHtml(FirstReason reason) {
    return reason
        .verdict()
        .map(verdicts::lineHtml)
        .or(() -> reason.trouble().map(verdicts::lineHtml))
        .orElseGet(() -> reason(reason));
  }

  private static String capital(String text) {
    return text.substring(0, 1).toUpperCase(Locale.ROOT) + text.substring(1);
  }
}
