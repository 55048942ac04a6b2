package org.kornspur.ingest.registry;

/** Why a schema registry did not do what it was asked. */
public abstract sealed class RegistryException extends RuntimeException
    permits UnknownSchema, IncompatibleSchema, RegistryRefused, RegistryUnreachable {

  RegistryException(String message, Throwable cause) {
    super(message, cause);
  }
}
