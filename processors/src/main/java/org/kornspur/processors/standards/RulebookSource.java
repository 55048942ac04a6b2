package org.kornspur.processors.standards;

import java.time.LocalDate;
import java.util.Optional;

/** Where a line of a rulebook stands written. */
public interface RulebookSource {
  String rulebookId();

  String edition();

  String text();

  String section();

  LocalDate inForceFrom();

  Optional<LocalDate> inForceTo();

  boolean verified();
}
