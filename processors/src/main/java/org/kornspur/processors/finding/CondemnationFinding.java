package org.kornspur.processors.finding;

import java.time.Instant;
import org.kornspur.ingest.statement.Value.Person;

/** That a person condemned it. */
public sealed interface CondemnationFinding extends Finding {
  record Condemned(Person person, Instant at, String reason) implements CondemnationFinding {}
}
