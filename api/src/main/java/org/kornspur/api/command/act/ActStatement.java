package org.kornspur.api.command.act;

import java.time.Instant;
import java.util.Optional;
import org.kornspur.contract.ActKind;
import org.kornspur.ingest.statement.Statement;
import org.kornspur.ingest.statement.Value.Person;

/** An act in readable form: name, time and meaning, as 21 CFR 11.50(b) asks for. */
public sealed interface ActStatement extends Statement {

  /**
   * A signed act.
   *
   * @param persons who must sign before it takes effect
   * @param name printed name; empty where it was forgotten
   */
  record Signed(
      ActKind kind,
      int persons,
      Optional<String> name,
      Person person,
      Instant at,
      String meaning,
      String reason)
      implements ActStatement {}

  /** An act that was refused. */
  record Refused(Person person, Instant at, String refusal) implements ActStatement {}
}
