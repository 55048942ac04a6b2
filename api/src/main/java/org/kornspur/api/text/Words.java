package org.kornspur.api.text;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.statement.Coded;
import org.kornspur.ingest.statement.Statement;
import org.kornspur.ingest.statement.Value;
import org.kornspur.ingest.statement.Value.Amount;
import org.kornspur.ingest.statement.Value.Count;
import org.kornspur.ingest.statement.Value.Day;
import org.kornspur.ingest.statement.Value.Fact;
import org.kornspur.ingest.statement.Value.OfSubject;
import org.kornspur.ingest.statement.Value.Person;
import org.kornspur.ingest.statement.Value.Said;
import org.kornspur.ingest.statement.Value.Several;
import org.kornspur.ingest.statement.Value.Term;
import org.kornspur.ingest.statement.Value.Text;
import org.kornspur.ingest.statement.Value.Time;
import org.kornspur.processors.finding.Bound;
import org.kornspur.processors.finding.Reference;
import org.kornspur.processors.standards.Limit;
import org.kornspur.processors.standards.Rulebook;

/**
 * Words for one reader. Each argument of a statement is there under its name: a count as a number,
 * by which a pattern can choose the plural; all else as text. Of a term or a recorded word its name
 * is there too, with {@code Key} behind, by which a pattern can choose; of a list its size, with
 * {@code Count}; of a subject its id alone, with {@code Id}. Whether an argument is there at all is
 * told by its name with {@code Is}: {@code there} or {@code none}.
 *
 * <p>What the reader may not know is never written: a subject or fact that is withheld stands there
 * as such.
 */
public final class Words {
  /** An argument of this name is the last day on which the advice holds. */
  private static final String UNTIL = "until";

  private static final String AFTERWARDS = ".afterwards";
  private static final String IS = "Is";

  /** Statements whose recorded words are titles of rulebooks and tables. */
  private static final List<String> CITING = List.of("reference.", "no-table.");

  /** Stands around the number of a link in a text that is not yet finished; no text has them. */
  private static final Pattern LINK = Pattern.compile("\uE000([0-9]+)\uE001");

  private static final Pattern LINK_MARK = Pattern.compile("[\uE000\uE001]");
  private static final int SHORT_ID = 8;

  private final Reader reader;
  private final Patterns patterns;
  private final LocalForm form;

  public Words(Reader reader) {
    this.reader = reader;
    this.form = reader.form();
    this.patterns = Patterns.in(form.language());
  }

  public Reader reader() {
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
    return patterns.text(key, arguments);
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
    return patterns.text(
        "rulebook.named",
        Map.of("title", patterns.citation(book.title()), "edition", book.edition()));
  }

  /** What a bundled rulebook, a table or the contract says; what a site says stays as it is. */
  public String bundled(String english) {
    return patterns.citation(english.replaceAll("\\s+", " "));
  }

  /** What must be borne in mind. */
  public String caution(String what) {
    return patterns.text("caution." + what);
  }

  public String caution(String what, String argument, String value) {
    return patterns.text("caution." + what, Map.of(argument, value));
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
      return new Text(subjectLink(subject.subject()).label());
    } else if (value instanceof Fact fact && !reader.namesFact(fact.factId())) {
      return new Text(factLink(fact.factId()).label());
    } else if (value instanceof Said said) {
      return new Said(visible(said.said()));
    } else if (value instanceof Several several) {
      return new Several(several.values().stream().map(this::visible).toList());
    }
    return value;
  }

  /** Items as in {@code A, B and C}. */
  String listed(List<String> items) {
    return patterns.listed(items);
  }

  /** A constant of an enumeration. */
  public String term(Enum<?> constant) {
    return patterns.term(constant.getDeclaringClass().getSimpleName(), constant.name());
  }

  private record Link(String label, Optional<String> address, String whole) {}

  private String finished(Coded statement, Precision precision, boolean asHtml) {
    List<Link> links = new ArrayList<>();
    String open = said(statement, precision, links);
    Matcher matcher = LINK.matcher(asHtml ? escaped(open) : open);
    return matcher.replaceAll(
        match -> {
          Link link = links.get(Integer.parseInt(match.group(1)));
          return Matcher.quoteReplacement(asHtml ? html(link) : link.label());
        });
  }

  private static String html(Link link) {
    String label = escaped(link.label());
    return link.address()
        .map(
            address ->
                "<a href=\"%s\" title=\"%s\">%s</a>"
                    .formatted(escaped(address), escaped(link.whole()), label))
        .orElseGet(
            () ->
                link.whole().equals(link.label())
                    ? label
                    : "<span title=\"%s\">%s</span>".formatted(escaped(link.whole()), label));
  }

  private static String escaped(String text) {
    return text.replace("&", "&amp;")
        .replace("<", "&lt;")
        .replace(">", "&gt;")
        .replace("\"", "&quot;");
  }

  private String said(Coded statement, Precision precision, List<Link> links) {
    Map<String, Object> arguments = new HashMap<>();
    boolean isCited = CITING.stream().anyMatch(statement.code()::startsWith);
    for (Coded.Argument argument : statement.arguments()) {
      Value value = argument.value();
      arguments.put(
          argument.name(),
          isCited && value instanceof Text text
              ? patterns.citation(written(text, precision, links).toString())
              : written(value, precision, links));
      arguments.put(argument.name() + IS, "there");
      if (value instanceof Term term) {
        arguments.put(argument.name() + "Key", term.name());
      } else if (value instanceof Text text) {
        arguments.put(argument.name() + "Key", text.text());
      } else if (value instanceof OfSubject subject) {
        arguments.put(argument.name() + "Id", link(links, idLink(subject.subject())));
      } else if (value instanceof Several several) {
        arguments.put(argument.name() + "Count", several.values().size());
      }
    }
    String key = key(statement);
    patterns.argumentsOf(key).stream()
        .filter(named -> named.endsWith(IS))
        .forEach(named -> arguments.putIfAbsent(named, "none"));
    return patterns.text(key, arguments);
  }

  private String key(Coded statement) {
    LocalDate today = reader.today();
    boolean isOver =
        statement
            .argument(UNTIL)
            .filter(value -> value instanceof Day until && today.isAfter(until.day()))
            .isPresent();
    String afterwards = statement.code() + AFTERWARDS;
    return isOver && patterns.has(afterwards) ? afterwards : statement.code();
  }

  private Object written(Value value, Precision precision, List<Link> links) {
    if (value instanceof Count count) {
      return count.count();
    } else if (value instanceof Amount amount) {
      return precision.written(amount, form);
    } else if (value instanceof Day day) {
      return form.day(day.day());
    } else if (value instanceof Time time) {
      return form.minute(time.time());
    } else if (value instanceof Term term) {
      return patterns.term(term.type(), term.name());
    } else if (value instanceof OfSubject subject) {
      return link(links, subjectLink(subject.subject()));
    } else if (value instanceof Fact fact) {
      return link(links, factLink(fact.factId()));
    } else if (value instanceof Person person) {
      return person.personId();
    } else if (value instanceof Said said) {
      return said(said.said(), precision, links);
    } else if (value instanceof Several several) {
      return several(several, precision, links);
    }
    return LINK_MARK.matcher(((Text) value).text()).replaceAll("");
  }

  private String several(Several several, Precision precision, List<Link> links) {
    List<String> items =
        several.values().stream().map(one -> written(one, precision, links).toString()).toList();
    boolean areClauses = several.values().stream().anyMatch(Said.class::isInstance);
    return areClauses ? patterns.inRow(items) : patterns.listed(items);
  }

  private static String link(List<Link> links, Link link) {
    links.add(link);
    return "\uE000" + (links.size() - 1) + "\uE001";
  }

  /** How a subject is named to the reader, in plain text. */
  public String named(Subject subject) {
    return subjectLink(subject).label();
  }

  private Link subjectLink(Subject subject) {
    if (!reader.names(subject)) {
      String withheld = patterns.text("subject.withheld", Map.of("kind", subject.kind().name()));
      return new Link(withheld, Optional.empty(), withheld);
    }
    Optional<String> name =
        subject.kind() == Subject.Kind.ENTERPRISE ? reader.nameOf(subject) : Optional.empty();
    String label =
        name.orElseGet(
            () ->
                patterns.text(
                    "subject.named", Map.of("kind", subject.kind().name(), "id", subject.id())));
    return new Link(label, reader.pageOf(subject), name.isPresent() ? subject.id() : label);
  }

  /** By its id alone, where the pattern says what it is. */
  private Link idLink(Subject subject) {
    Link named = subjectLink(subject);
    return reader.names(subject) ? new Link(subject.id(), named.address(), named.whole()) : named;
  }

  private Link factLink(String factId) {
    if (!reader.namesFact(factId)) {
      String withheld = patterns.text("fact.withheld");
      return new Link(withheld, Optional.empty(), withheld);
    }
    boolean isLong = factId.length() > SHORT_ID + 4;
    return new Link(
        isLong ? factId.substring(0, SHORT_ID) + "…" : factId, Optional.empty(), factId);
  }
}
