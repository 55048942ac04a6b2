package org.kornspur.processors.release;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.util.Optional;
import java.util.Properties;
import java.util.stream.Collectors;
import org.kornspur.ingest.statement.Coded;
import org.kornspur.ingest.statement.Statement;
import org.kornspur.ingest.statement.Value;
import org.kornspur.processors.finding.BasisFinding;
import org.kornspur.processors.finding.BlendFinding;
import org.kornspur.processors.finding.ContractFinding;
import org.kornspur.processors.finding.Reference;
import org.kornspur.processors.standards.Limit;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.processors.verdict.Verdict;

/**
 * English words that version 1 of the canonical text had in it: what is owed, and where a limit of
 * the breeder stands. They never change, or a seal of that version could not be checked any more.
 */
final class VersionOneWords {
  private static final Properties OWED = owed();

  private static final String NOT_JUDGED = code(BasisFinding.NotJudged.class);
  private static final String BEYOND_LIMITS = code(ContractFinding.BeyondLimits.class);
  private static final MathContext SIX_FIGURES = new MathContext(6, RoundingMode.HALF_UP);

  private VersionOneWords() {}

  private static String code(Class<? extends Statement> kind) {
    return Coded.codeOf(kind);
  }

  private static Properties owed() {
    Properties words = new Properties();
    try (InputStream file = VersionOneWords.class.getResourceAsStream("version-one.properties")) {
      words.load(file);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return words;
  }

  /** What a verdict owes. */
  static String owed(Verdict.Owed verdict) {
    return verdict.evidence().stream()
        .map(evidence -> owed(evidence, verdict))
        .sorted()
        .collect(Collectors.joining(", "));
  }

  private static String owed(Coded evidence, Verdict verdict) {
    String words = OWED.getProperty(evidence.code());
    boolean isOne = false;
    for (Coded.Argument argument : evidence.arguments()) {
      words = words.replace("{" + argument.name() + "}", argument(argument, verdict));
      isOne |= argument.value().equals(new Value.Count(1));
    }
    return words
        .replace("{kind}", verdict.gate() == Gate.ERGOT ? "bodies of ergot" : verdict.aspect())
        .replace("{least}", "the same mass")
        .replace("{further}", "")
        .replace("(s)", isOne ? "" : "s");
  }

  private static String argument(Coded.Argument argument, Verdict verdict) {
    String plain = plain(argument.value());
    return switch (argument.name()) {
      case "facts" -> facts(plain, verdict);
      case "further" -> ", and " + plain + " more";
      default -> plain;
    };
  }

  /** Facts to correct; of a fault it is one of them, of limits of the contract it is all. */
  private static String facts(String ids, Verdict verdict) {
    boolean isFault =
        verdict.findings().stream().anyMatch(found -> found.code().equals(NOT_JUDGED));
    if (isFault && verdict.factIds().size() > 1) {
      return "one of the facts " + ids;
    }
    boolean isBeyondLimits =
        verdict.findings().stream().anyMatch(found -> found.code().equals(BEYOND_LIMITS));
    return isBeyondLimits ? ids : "fact " + ids;
  }

  /** The section of a verdict's limit. */
  static String section(Limit limit, Verdict verdict) {
    if (limit.rulebookId().equals(Limit.STATED)) {
      return "fact " + verdict.factIds().get(0);
    }
    return limit.rulebookId().equals(Limit.BREEDER)
        ? ratio(verdict).orElse(limit.section())
        : limit.section();
  }

  private static Optional<String> ratio(Verdict verdict) {
    Optional<Coded> ratio =
        verdict.findings().stream()
            .filter(finding -> finding.code().equals(code(BlendFinding.Ratio.class)))
            .findFirst();
    return ratio.map(
        found ->
            "ratio %s %% with a tolerance of %s%s"
                .formatted(
                    plain(found, "share"),
                    points(plain(found, "tolerance")),
                    said(found, "extra").map(VersionOneWords::extra).orElse("")));
  }

  private static String points(String number) {
    return number + (number.equals("1") ? " percentage point" : " percentage points");
  }

  /** What a rulebook adds to the breeder's tolerance. */
  private static String extra(Coded cited) {
    Coded source = said(cited, "source").orElseThrow();
    boolean isPractice = source.code().equals(code(Reference.CommonPractice.class));
    boolean isVerified = !source.code().equals(code(Reference.NotVerified.class));
    return "; at most %s beyond it (%s %s: %s, %s, in force from %s%s%s)"
        .formatted(
            points(plain(said(cited, "bound").orElseThrow(), "value")),
            plain(source, "rulebook"),
            plain(source, "edition"),
            isPractice ? Limit.NO_SOURCE : plain(source, "text"),
            plain(source, isPractice ? "note" : "section"),
            plain(source, "from"),
            source.argument("to").map(day -> " to " + plain(day)).orElse(""),
            isVerified ? "" : "; not verified against the text");
  }

  private static Optional<Coded> said(Coded statement, String name) {
    return statement.argument(name).map(value -> ((Value.Said) value).said());
  }

  private static String plain(Coded statement, String name) {
    return plain(statement.argument(name).orElseThrow());
  }

  private static String plain(Value value) {
    if (value instanceof Value.Amount amount) {
      return number(amount.number());
    } else if (value instanceof Value.OfSubject subject) {
      return switch (subject.subject().kind()) {
        case HYBRID, SOURCE -> subject.subject().id();
        default -> subject.subject().toString();
      };
    } else if (value instanceof Value.Fact fact) {
      return fact.factId();
    } else if (value instanceof Value.Text text) {
      return text.text();
    } else if (value instanceof Value.Term term) {
      return term.name();
    } else if (value instanceof Value.Day day) {
      return day.day().toString();
    } else if (value instanceof Value.Count count) {
      return Long.toString(count.count());
    } else if (value instanceof Value.Several several) {
      return several.values().stream()
          .map(VersionOneWords::plain)
          .collect(Collectors.joining(", "));
    }
    Coded said = ((Value.Said) value).said();
    Value.Amount least = (Value.Amount) said.argument("value").orElseThrow();
    return "at least " + number(least.number()) + " " + least.unit();
  }

  /** A number with at most six figures and no trailing zeros; whole numbers stay whole. */
  private static String number(double value) {
    if (value == Math.rint(value) && Math.abs(value) < 1e15) {
      return Long.toString((long) value);
    }
    return new BigDecimal(value).round(SIX_FIGURES).stripTrailingZeros().toPlainString();
  }
}
