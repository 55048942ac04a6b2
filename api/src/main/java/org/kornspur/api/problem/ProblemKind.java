package org.kornspur.api.problem;

import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;

/**
 * Every kind of problem that this interface answers with: its status, its title and what the caller
 * can do. The {@code type} of a problem document is the address of the kind's own page.
 */
public enum ProblemKind {
  INVALID_FACT(
      422,
      "The fact breaks the contract",
      "Mend each field that is named under problems and send the fact again under the same id."),
  FACT_CONFLICT(
      409,
      "Another fact has this id",
      "Give the fact an id of its own. If the earlier fact was wrong, set"
          + " header.correction.supersedes to its id and give the reason."),
  UNREADABLE_BODY(
      400,
      "The body cannot be read",
      "Mend the text at the line and column that are named, and send it again."),
  INVALID_PARAMETER(
      400,
      "A parameter of the request is wrong",
      "Mend each parameter that is named under problems and ask again."),
  NOT_LOGGED_IN(
      401,
      "Nobody is known to ask",
      "Log in: person and password with each request (curl -u), the cookie of /login, or a bearer"
          + " token, as this server is set up."),
  FORBIDDEN(
      403,
      "You may not do this",
      "Ask somebody who has one of the roles that are named, or have the administrator give you"
          + " one."),
  NOT_YOURS_TO_BRING(
      403,
      "You may not bring this fact",
      "Mend what is named under problems, or have the fact brought by somebody who may."),
  FORGED_REQUEST(
      403,
      "The request does not come from your own page",
      "Load the page anew and send the form from there. A script sends person and password with"
          + " each request instead of the cookie."),
  FRESH_LOG_IN_NEEDED(
      403,
      "Who signs must say again who they are",
      "Give what is named under problems and sign again."),
  OWN_PASSWORD_NEEDED(
      403,
      "The password was issued and must be changed first",
      "Set a password of your own: POST /api/v1/account/password with that person and password, and"
          + " in the body password and newPassword; or log in at /login, which asks for it."),
  PERSON_CONFLICT(409, "The people cannot be changed so", "Read the detail and mend the request."),
  TOO_MANY_REQUESTS(
      429,
      "Too many requests",
      "Ask again after the seconds that the Retry-After header gives, and less often."),
  NOT_FOUND(
      404,
      "Nothing is here",
      "Check the address and the id; ids are case-sensitive. /openapi names every address."),
  METHOD_NOT_ALLOWED(
      405, "This address does not take this method", "Use a method that the Allow header names."),
  NOT_ACCEPTABLE(
      406,
      "The answer cannot be given in the form asked for",
      "Accept application/json; the live stream is text/event-stream."),
  BODY_TOO_LARGE(413, "The body is too large", "Divide it and send it in parts."),
  REQUEST_TIMEOUT(408, "The body did not come in time", "Send it again, faster or in parts."),
  ADDRESS_TOO_LONG(414, "The address is too long", "Ask for less at once."),
  HEADERS_TOO_LARGE(431, "The headers are too large", "Send fewer or shorter headers."),
  UNSUPPORTED_MEDIA_TYPE(
      415,
      "The body is of a kind that is not read here",
      "Send application/json, or application/x-ndjson for many facts, one a line."),
  NOT_REPLAYABLE(
      422,
      "The quarantined input cannot be taken in as it is",
      "Send the mended fact as JSON in the body of the replay, or discard the entry."),
  ALREADY_SETTLED(
      409,
      "The quarantine entry is settled already",
      "Nothing is left to do; the entry says what became of it."),
  ACT_OUT_OF_SEQUENCE(
      409,
      "The act does not follow on the state of the lot",
      "Read the detail and the release sheet; the attempt is on record."),
  SEAL_CHANGED(
      409,
      "The lot is no longer what you saw",
      "Read the release sheet again, with what changed, and sign that one if you still want to; the"
          + " attempt is on record."),
  LABEL_REFUSED(
      409,
      "No label can be made for this lot",
      "Look at the lot's standing and at what is owed; GET its label for what one would have to"
          + " say."),
  BACKUP_REFUSED(409, "No backup can be made", "Read the detail, and ask the administrator."),
  REQUEST_REFUSED(400, "The request is refused", "Read the detail and mend the request."),
  NOT_READY(
      503,
      "The answer cannot be given just now",
      "Ask again after the seconds that the Retry-After header gives. Facts may be sent again: the"
          + " same fact id counts once."),
  UNEXPECTED(
      500,
      "Something went wrong here",
      "Ask again; if it stays, give the incident id to whoever runs this server: the log has the"
          + " rest under it.");

  private final int status;
  private final String title;
  private final String remedy;

  ProblemKind(int status, String title, String remedy) {
    this.status = status;
    this.title = title;
    this.remedy = remedy;
  }

  /** HTTP status. */
  public int status() {
    return status;
  }

  public String title() {
    return title;
  }

  /** What the caller can do. */
  public String remedy() {
    return remedy;
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
