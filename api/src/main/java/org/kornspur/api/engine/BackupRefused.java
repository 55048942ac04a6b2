package org.kornspur.api.engine;

/** No backup can be made here or now; the message says why and what to do. */
public final class BackupRefused extends RuntimeException {
  private static final long serialVersionUID = 1L;

  BackupRefused(String message) {
    super(message);
  }
}
