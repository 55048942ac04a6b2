package org.kornspur.ingest.chain;

/** Bytes that are no link, no checkpoint or no proof; the message says why. */
public final class UnreadableChain extends RuntimeException {

  public UnreadableChain(String message) {
    super(message);
  }

  public UnreadableChain(String message, Throwable cause) {
    super(message, cause);
  }
}
