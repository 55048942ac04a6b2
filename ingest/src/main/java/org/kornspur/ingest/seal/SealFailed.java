package org.kornspur.ingest.seal;

/** A key that cannot be read, made or used; the message says which and what to do. */
public final class SealFailed extends RuntimeException {

  SealFailed(String message, Throwable cause) {
    super(message, cause);
  }
}
