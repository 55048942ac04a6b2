package org.kornspur.ingest.seal;

/** A key that cannot be read, made or used; the message says which and what to do. */
public final class SealFailed extends RuntimeException {

  private static final long serialVersionUID = 1L;

  SealFailed(String message, Throwable cause) {
    super(message, cause);
  }
}
