package org.kornspur.api.problem;

import jakarta.ws.rs.core.HttpHeaders;
import jakarta.ws.rs.core.Response;
import java.util.OptionalLong;
import org.kornspur.api.text.Language;

/** Ends a request with a problem document. */
public abstract class ProblemException extends RuntimeException {
  private final transient ProblemDocument document;
  private final transient OptionalLong retryAfterSeconds;

  /**
   * With the document in English as message.
   *
   * @param retryAfterSeconds when to ask again; empty where that would not help
   */
  protected ProblemException(ProblemDocument document, OptionalLong retryAfterSeconds) {
    super(document.detail(ProblemLanguage.words(Language.ENGLISH)));
    this.document = document;
    this.retryAfterSeconds = retryAfterSeconds;
  }

  /** The same without stack trace, for what whoever sends many requests could have made often. */
  protected ProblemException(
      String message, ProblemDocument document, OptionalLong retryAfterSeconds) {
    super(message, null, false, false);
    this.document = document;
    this.retryAfterSeconds = retryAfterSeconds;
  }

  public ProblemDocument document() {
    return document;
  }

  public OptionalLong retryAfterSeconds() {
    return retryAfterSeconds;
  }

  /** An answer with the document and when to ask again. */
  public Response.ResponseBuilder answer() {
    Response.ResponseBuilder answer = ProblemAnswer.of(document);
    retryAfterSeconds.ifPresent(seconds -> answer.header(HttpHeaders.RETRY_AFTER, seconds));
    return answer;
  }
}
