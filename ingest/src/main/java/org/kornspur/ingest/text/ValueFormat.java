package org.kornspur.ingest.text;

import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.statement.Coded;
import org.kornspur.ingest.statement.Value.Amount;
import org.kornspur.ingest.statement.Value.Term;

/** How single values are written within a text. */
public interface ValueFormat {
  String count(long count);

  /** A number with its unit. */
  String amount(Amount amount);

  String day(LocalDate day);

  String time(Instant time);

  String term(Term term);

  /** Words or an id as somebody recorded them, in this statement. */
  String text(String text, Coded within);

  String subject(Subject subject);

  /** A subject by its id alone, where the pattern says what it is. */
  String id(Subject subject);

  String fact(String factId);

  String person(String personId);

  String list(List<String> parts);

  /** Whole statements one after the other. */
  default String clauses(List<String> parts) {
    return list(parts);
  }

  /** The key of the text by which a statement is written. */
  default String key(Coded statement) {
    return statement.code();
  }
}
