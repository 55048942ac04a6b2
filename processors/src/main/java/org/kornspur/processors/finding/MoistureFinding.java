package org.kornspur.processors.finding;

import org.kornspur.ingest.statement.Value.Amount;

/** What a test of moisture shows. */
public sealed interface MoistureFinding extends Finding {
  record Found(Amount percent) implements MoistureFinding {}
}
