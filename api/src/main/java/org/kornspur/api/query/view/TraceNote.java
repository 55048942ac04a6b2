package org.kornspur.api.query.view;

import org.kornspur.ingest.statement.Statement;

/** How far a trace can be relied on. */
public sealed interface TraceNote extends Statement {

  /** It ends where seed of others begins. */
  record Cut() implements TraceNote {}

  record Stopped(int subjects) implements TraceNote {}

  record Unresolved(int subjects) implements TraceNote {}

  record Complete() implements TraceNote {}

  /** Not all that had come in was processed. */
  record CompleteSoFar() implements TraceNote {}
}
