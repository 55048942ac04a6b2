package org.kornspur.api.query.view;

import org.kornspur.ingest.statement.Statement;

/** How much was known when an answer was given. */
public sealed interface AsOfNote extends Statement {
  record AllIn() implements AsOfNote {}

  record NotAllIn() implements AsOfNote {}

  record Waiting(long records) implements AsOfNote {}

  record HeldBack(long records, long held) implements AsOfNote {}

  record Unknown() implements AsOfNote {}
}
