package org.kornspur.ingest.wire;

/** Bytes that are no record in wire format: too short, foreign, cut off, or followed by others. */
public final class NotWireFormat extends RuntimeException {

  NotWireFormat(String message, Throwable cause) {
    super(message, cause);
  }
}
