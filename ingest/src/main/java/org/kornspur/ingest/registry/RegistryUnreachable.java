package org.kornspur.ingest.registry;

/**
 * The registry could not be asked, or failed while it was asked. Nothing is known of the record:
 * try again later, and never set the record aside as bad.
 */
public final class RegistryUnreachable extends RegistryException {

  public RegistryUnreachable(String message, Throwable cause) {
    super(message, cause);
  }
}
