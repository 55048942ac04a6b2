package org.kornspur.ingest.registry;

/** The registry answered, and the answer is no, or is none that can be understood. */
public final class RegistryRefused extends RegistryException {

  /**
   * @param message what was asked of which registry, what it answered, and what to do
   */
  public RegistryRefused(String message) {
    super(message, null);
  }

  RegistryRefused(String message, Throwable cause) {
    super(message, cause);
  }
}
