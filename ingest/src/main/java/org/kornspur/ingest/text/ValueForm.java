package org.kornspur.ingest.text;

import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.statement.Value.Amount;
import org.kornspur.ingest.statement.Value.Term;

/** How single values are written within a text. */
public interface ValueForm {
  String count(long count);

  /** A number with its unit. */
  String amount(Amount amount);

  String day(LocalDate day);

  String time(Instant time);

  String term(Term term);

  /** Words or an id as somebody recorded them. */
  String text(String text);

  String subject(Subject subject);

  String fact(String factId);

  String person(String personId);

  String list(List<String> parts);
}
