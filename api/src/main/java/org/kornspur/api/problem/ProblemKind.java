package org.kornspur.api.problem;

import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.kornspur.ingest.statement.Coded;

/**
 * Every kind of problem that this interface answers with: its status, its title and what the caller
 * can do, in words under {@code problem-kind}. The {@code type} of a problem document is the
 * address of the kind's own page.
 */
public enum ProblemKind {
  INVALID_FACT(422),
  FACT_CONFLICT(409),
  UNREADABLE_BODY(400),
  INVALID_PARAMETER(400),
  NOT_LOGGED_IN(401),
  FORBIDDEN(403),
  NOT_YOURS_TO_BRING(403),
  FORGED_REQUEST(403),
  FRESH_LOG_IN_NEEDED(403),
  OWN_PASSWORD_NEEDED(403),
  PERSON_CONFLICT(409),
  TOO_MANY_REQUESTS(429),
  NOT_FOUND(404),
  METHOD_NOT_ALLOWED(405),
  NOT_ACCEPTABLE(406),
  BODY_TOO_LARGE(413),
  REQUEST_TIMEOUT(408),
  ADDRESS_TOO_LONG(414),
  HEADERS_TOO_LARGE(431),
  UNSUPPORTED_MEDIA_TYPE(415),
  NOT_REPLAYABLE(422),
  ALREADY_SETTLED(409),
  ACT_OUT_OF_SEQUENCE(409),
  SEAL_CHANGED(409),
  PLAN_CHANGED(409),
  LABEL_REFUSED(409),
  BACKUP_REFUSED(409),
  REQUEST_REFUSED(400),
  NOT_READY(503),
  UNEXPECTED(500);

  private final int status;

  ProblemKind(int status) {
    this.status = status;
  }

  /** HTTP status. */
  public int status() {
    return status;
  }

  /** What it is, in a few words. */
  public Coded title() {
    return text(".title");
  }

  /** What the caller can do. */
  public Coded remedy() {
    return text(".remedy");
  }

  private Coded text(String part) {
    return new Coded("problem-kind." + word() + part, List.of());
  }

  /** The last part of the address of its page, as in {@code fact-conflict}. */
  public String word() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  /** The {@code type} of its documents. */
  public String type() {
    return "/problems/" + word();
  }

  /** The kind with this word. */
  public static Optional<ProblemKind> of(String word) {
    return Arrays.stream(values()).filter(kind -> kind.word().equals(word)).findFirst();
  }
}
