package org.kornspur.api.text;

import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.statement.Coded;
import org.kornspur.ingest.statement.Statement;
import org.kornspur.ingest.statement.Value;
import org.kornspur.ingest.statement.Value.Fact;
import org.kornspur.ingest.statement.Value.OfSubject;
import org.kornspur.ingest.statement.Value.Said;
import org.kornspur.ingest.statement.Value.Several;
import org.kornspur.ingest.statement.Value.Text;
import org.kornspur.ingest.text.StatementWriter;
import org.kornspur.processors.finding.Bound;
import org.kornspur.processors.finding.Reference;
import org.kornspur.processors.standards.Limit;
import org.kornspur.processors.standards.Rulebook;

/**
 * Writes statements for one reader, with the patterns of {@link StatementTexts} in the reader's
 * language. What the reader may not know is never written: a subject or fact that is withheld
 * stands there as such.
 */
public final class ReaderWords {
  private final Audience reader;
  private final StatementTexts patterns;

  public ReaderWords(Audience reader) {
    this.reader = reader;
    this.patterns = StatementTexts.in(reader.form().language());
  }

  public Audience reader() {
    return reader;
  }

  /** A statement in plain text. */
  public String plain(Coded statement) {
    return plain(statement, Precision.USUAL);
  }

  public String plain(Statement statement) {
    return plain(statement.coded());
  }

  /** Statements one after the other. */
  public String inRow(List<Coded> statements) {
    return statements.stream().map(this::plain).collect(Collectors.joining(" "));
  }

  /** A statement as HTML, ids as links. */
  public String html(Coded statement) {
    return html(statement, Precision.USUAL);
  }

  String plain(Coded statement, Precision precision) {
    return finished(statement, precision, false);
  }

  String html(Coded statement, Precision precision) {
    return finished(statement, precision, true);
  }

  /** A text of its own, for which no statement stands. */
  String text(String key, Map<String, ?> arguments) {
    return patterns.texts().written(key, arguments);
  }

  /** A limit, as in {@code at most 5 plants in 150 m²}. */
  public String limit(Limit limit) {
    return plain(Bound.of(limit));
  }

  /** Where a limit stands and how sure that is. */
  public String source(Limit limit) {
    return plain(Reference.of(limit));
  }

  /** A rulebook by title and edition. */
  public String rulebook(Rulebook book) {
    return text(
        "rulebook.named",
        Map.of("title", patterns.citation(book.title()), "edition", book.edition()));
  }

  /** What a bundled rulebook, a table or the contract says; what a site says stays as it is. */
  public String bundled(String english) {
    return patterns.citation(english.replaceAll("\\s+", " "));
  }

  /** What must be borne in mind. */
  public String caution(String what) {
    return text("caution." + what, Map.of());
  }

  public String caution(String what, String argument, String value) {
    return text("caution." + what, Map.of(argument, value));
  }

  /** The same statement without what the reader may not know. */
  public Coded visible(Coded statement) {
    return new Coded(
        statement.code(),
        statement.arguments().stream()
            .map(argument -> new Coded.Argument(argument.name(), visible(argument.value())))
            .toList());
  }

  private Value visible(Value value) {
    if (value instanceof OfSubject subject && !reader.names(subject.subject())) {
      return new Text(named(subject.subject()));
    } else if (value instanceof Fact fact && !reader.namesFact(fact.factId())) {
      return new Text(form().linkOf(fact.factId()).label());
    } else if (value instanceof Said said) {
      return new Said(visible(said.said()));
    } else if (value instanceof Several several) {
      return new Several(several.values().stream().map(this::visible).toList());
    }
    return value;
  }

  /** Items as in {@code A, B and C}. */
  String listed(List<String> items) {
    return form().list(items);
  }

  /** A constant of an enumeration. */
  public String term(Enum<?> constant) {
    return patterns.texts().term(constant.getDeclaringClass().getSimpleName(), constant.name());
  }

  private ReaderFormat form() {
    return new ReaderFormat(reader, Precision.USUAL);
  }

  private String finished(Coded statement, Precision precision, boolean asHtml) {
    ReaderFormat written = new ReaderFormat(reader, precision);
    String open = new StatementWriter(patterns.texts(), written).of(statement);
    return asHtml ? written.links().html(open) : written.links().plain(open);
  }

  /** How a subject is named to the reader, in plain text. */
  public String named(Subject subject) {
    return form().linkOf(subject).label();
  }
}
