package org.kornspur.api.export.label;

import org.kornspur.contract.Category;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.statement.Statement;

/** What is said about a label, and on the drawing of its code. */
public sealed interface LabelStatement extends Statement {

  /** What stands in the way of a sale, the graver first. */
  enum Standing {
    NOT_FIT,
    EVIDENCE_OWED,
    UNKNOWN,
    NOT_RELEASED,
    SUSPENDED,
    CONDEMNED,
    RELEASED
  }

  record NotOfficial() implements LabelStatement {}

  record NotOfficialInShort() implements LabelStatement {}

  record Hindered(Subject lot, Standing standing) implements LabelStatement {}

  record NotToBeSold() implements LabelStatement {}

  record Warning(Standing standing) implements LabelStatement {}

  record OfLot(Subject lot) implements LabelStatement {}

  record CodeOf(Subject lot) implements LabelStatement {}

  /** An item that is not known, and what to do about it. */
  record Missing(LabelItem item, String section) implements LabelStatement {}

  record NoLabel(String rules, Category category) implements LabelStatement {}

  record NotVerified() implements LabelStatement {}

  record NumberTwice(String number) implements LabelStatement {}

  record OtherForm(Subject lot, String form) implements LabelStatement {}
}
