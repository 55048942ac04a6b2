package org.kornspur.api.storage;

/** A part of this process could not start; the message says why and what to do. */
public final class CannotStart extends RuntimeException {

  public CannotStart(String message, Throwable cause) {
    super(message, cause);
  }
}
