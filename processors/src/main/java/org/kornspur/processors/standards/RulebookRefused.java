package org.kornspur.processors.standards;

/** A rulebook file that cannot be used. The message names the file, the line item and the field. */
public final class RulebookRefused extends IllegalArgumentException {
  RulebookRefused(String message) {
    super(message);
  }

  RulebookRefused(String message, Throwable cause) {
    super(message, cause);
  }
}
