package org.kornspur.ingest.registry;

/** Why a schema registry did not do what it was asked. */
public abstract sealed class RegistryException extends RuntimeException
    permits UnknownSchema, IncompatibleSchema, RegistryRefused, RegistryUnreachable {

  private static final long serialVersionUID = 1L;

  RegistryException(String message, Throwable cause) {
    super(message, cause);
  }
}
