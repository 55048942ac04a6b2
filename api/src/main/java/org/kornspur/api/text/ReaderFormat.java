package org.kornspur.api.text;

import com.ibm.icu.text.ListFormatter;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.kornspur.api.text.Links.Link;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.statement.Coded;
import org.kornspur.ingest.statement.Value;
import org.kornspur.ingest.statement.Value.Amount;
import org.kornspur.ingest.statement.Value.Day;
import org.kornspur.ingest.statement.Value.Term;
import org.kornspur.ingest.text.TextBundle;
import org.kornspur.ingest.text.ValueFormat;

/**
 * Values as one reader may know them: what is withheld stands there as such, all else that has a
 * page as a link. For one text.
 */
final class ReaderFormat implements ValueFormat {
  /** An argument of this name is the last day on which the advice holds. */
  private static final String UNTIL = "until";

  private static final String AFTERWARDS = ".afterwards";

  /** Statements whose recorded words are titles of rulebooks and tables. */
  private static final List<String> CITING = List.of("reference.", "no-table.");

  private static final int SHORT_ID = 8;

  private final Audience reader;
  private final Precision precision;
  private final StatementTexts patterns;
  private final Links links = new Links();

  ReaderFormat(Audience reader, Precision precision) {
    this.reader = reader;
    this.precision = precision;
    this.patterns = StatementTexts.in(reader.form().language());
  }

  Links links() {
    return links;
  }

  @Override
  public String count(long count) {
    return reader.form().count(count);
  }

  @Override
  public String amount(Amount amount) {
    return precision.written(amount, reader.form());
  }

  @Override
  public String day(LocalDate day) {
    return reader.form().day(day);
  }

  @Override
  public String time(Instant time) {
    return reader.form().minute(time);
  }

  @Override
  public String term(Term term) {
    return texts().term(term.type(), term.name());
  }

  @Override
  public String text(String text, Coded within) {
    boolean isCited = CITING.stream().anyMatch(within.code()::startsWith);
    return Links.unmarked(isCited ? patterns.citation(text) : text);
  }

  @Override
  public String subject(Subject subject) {
    return links.mark(linkOf(subject));
  }

  @Override
  public String id(Subject subject) {
    Link named = linkOf(subject);
    return links.mark(
        reader.names(subject) ? new Link(subject.id(), named.address(), named.whole()) : named);
  }

  @Override
  public String fact(String factId) {
    return links.mark(linkOf(factId));
  }

  @Override
  public String person(String personId) {
    return reader.namesPersons() ? personId : texts().written("person.withheld", Map.of());
  }

  @Override
  public String list(List<String> parts) {
    return ListFormatter.getInstance(texts().locale()).format(parts);
  }

  @Override
  public String clauses(List<String> parts) {
    return String.join("; ", parts);
  }

  /** After the last day of an advice, what can still be done. */
  @Override
  public String key(Coded statement) {
    Optional<Value> until = statement.argument(UNTIL);
    boolean isOver =
        until.isPresent() && until.get() instanceof Day day && reader.today().isAfter(day.day());
    String afterwards = statement.code() + AFTERWARDS;
    return isOver && texts().has(afterwards) ? afterwards : statement.code();
  }

  private TextBundle texts() {
    return patterns.texts();
  }

  Link linkOf(Subject subject) {
    if (!reader.names(subject)) {
      return Link.none(texts().written("subject.withheld", Map.of("kind", subject.kind().name())));
    }
    Optional<String> name =
        subject.kind() == Subject.Kind.ENTERPRISE ? reader.nameOf(subject) : Optional.empty();
    String label =
        name.orElseGet(
            () ->
                texts()
                    .written(
                        "subject.named",
                        Map.of("kind", subject.kind().name(), "id", subject.id())));
    return new Link(label, reader.pageOf(subject), name.isPresent() ? subject.id() : label);
  }

  Link linkOf(String factId) {
    if (!reader.namesFact(factId)) {
      return Link.none(texts().written("fact.withheld", Map.of()));
    }
    boolean isLong = factId.length() > SHORT_ID + 4;
    return new Link(
        isLong ? factId.substring(0, SHORT_ID) + "…" : factId, Optional.empty(), factId);
  }
}
