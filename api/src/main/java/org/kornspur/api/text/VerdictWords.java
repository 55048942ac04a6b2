package org.kornspur.api.text;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.statement.Coded;
import org.kornspur.ingest.statement.Value;
import org.kornspur.processors.finding.BasisFinding;
import org.kornspur.processors.finding.Evidence;
import org.kornspur.processors.standards.Limit;
import org.kornspur.processors.standards.Quantity;
import org.kornspur.processors.stream.StatementRecords;
import org.kornspur.standing.GateVerdict;
import org.kornspur.standing.InheritedTrouble;
import org.kornspur.standing.LotRelease;
import org.kornspur.standing.SaidStatement;
import org.kornspur.standing.VerdictChange;
import org.kornspur.standing.VerdictLimit;
import org.kornspur.standing.VerdictState;
import org.kornspur.standing.VerdictValue;

/**
 * Verdicts in words: in one line for lists and cards, or whole. A standing of an earlier version
 * has English sentences in place of findings; they are shown as they were recorded.
 */
public record VerdictWords(ReaderWords words) {
  private static final Set<String> CORRECTIONS =
      Stream.of(
              Evidence.Correction.class,
              Evidence.CorrectionOrReason.class,
              Evidence.CorrectionHere.class)
          .map(Coded::codeOf)
          .collect(Collectors.toUnmodifiableSet());

  /** What was found, the most telling first; never empty. */
  public static List<Coded> findings(GateVerdict verdict) {
    return findings(verdict.getFindings(), verdict.getSentence());
  }

  public static List<Coded> findings(InheritedTrouble trouble) {
    return findings(trouble.getFindings(), trouble.getSentence());
  }

  public static List<Coded> findings(VerdictChange change) {
    return findings(change.getFindings(), change.getSentence());
  }

  private static List<Coded> findings(List<SaidStatement> findings, String sentence) {
    return findings.isEmpty()
        ? List.of(new BasisFinding.Recorded(sentence).coded())
        : StatementRecords.read(findings);
  }

  /** What is to be brought; empty where nothing is owed. */
  public static List<Coded> evidence(GateVerdict verdict) {
    return verdict.getOwed() != null
        ? List.of(new Evidence.Recorded(verdict.getOwed()).coded())
        : StatementRecords.read(verdict.getEvidence());
  }

  /** Facts of which a correction is owed, for they seem mistaken; none where nothing is owed. */
  public static List<String> factsToCorrect(GateVerdict verdict) {
    return evidence(verdict).stream()
        .filter(owed -> CORRECTIONS.contains(owed.code()))
        .flatMap(Coded::values)
        .filter(Value.Fact.class::isInstance)
        .map(fact -> ((Value.Fact) fact).factId())
        .distinct()
        .toList();
  }

  public static List<Coded> advice(GateVerdict verdict) {
    return StatementRecords.read(verdict.getAdvice());
  }

  /** Which of several verdicts of its gate it is, as shown; else empty. */
  public String about(SaidStatement about, String key) {
    return about == null ? key : words.plain(StatementRecords.read(about));
  }

  /** One line for a list: what is, then what is needed or missing. */
  public String line(GateVerdict verdict) {
    return line(verdict, words::plain);
  }

  /** The same as HTML, ids as links. */
  public String lineHtml(GateVerdict verdict) {
    return line(verdict, words::html);
  }

  private interface Rendering {
    String of(Coded statement, Precision precision);
  }

  private String line(GateVerdict verdict, Rendering rendering) {
    Precision precision = Precision.of(verdict.getLimit());
    Map<String, Object> arguments = new HashMap<>();
    arguments.put("finding", rendering.of(findings(verdict).get(0), precision));
    limit(verdict).ifPresent(limit -> arguments.put("limit", limit));
    arguments.put("evidence", evidence(verdict, rendering));
    return words.text("verdict.line." + key(verdict.getState()), arguments);
  }

  /** What is to be brought, as in {@code germination test and moisture test}. */
  public String evidenceLine(GateVerdict verdict) {
    return evidence(verdict, words::plain);
  }

  public String evidenceHtml(GateVerdict verdict) {
    return evidence(verdict, words::html);
  }

  private String evidence(GateVerdict verdict, Rendering rendering) {
    return words.listed(
        evidence(verdict).stream().map(one -> rendering.of(one, Precision.USUAL)).toList());
  }

  /** All that a verdict says: findings, limit with source, what to bring, what to do. */
  public String whole(GateVerdict verdict) {
    Precision precision = Precision.of(verdict.getLimit());
    boolean isRecorded = verdict.getFindings().isEmpty();
    List<String> sentences = new ArrayList<>();
    findings(verdict).forEach(finding -> sentences.add(words.plain(finding, precision)));
    if (!isRecorded) {
      limit(verdict)
          .ifPresent(
              limit ->
                  sentences.add(
                      words.text(
                          "verdict.limit." + key(verdict.getState()),
                          Map.of("limit", limit + " (" + source(verdict.getLimit()) + ")"))));
      if (verdict.getState() == VerdictState.OWED) {
        sentences.add(
            words.text("verdict.bring", Map.of("evidence", evidence(verdict, words::plain))));
      }
      advice(verdict).forEach(one -> sentences.add(words.plain(one)));
    }
    return String.join(" ", sentences);
  }

  /** Each of these as a sentence of HTML. */
  public List<String> html(List<Coded> statements, VerdictLimit limit) {
    Precision precision = Precision.of(limit);
    return statements.stream().map(one -> words.html(one, precision)).toList();
  }

  /** What was found of an ancestor, each as a sentence of HTML. */
  public List<String> html(InheritedTrouble trouble) {
    return findings(trouble).stream().map(one -> words.html(one, Precision.OF_DISTANCES)).toList();
  }

  /** A value in the unit of its limit, with as many digits as tell the two apart. */
  public String measure(double value, String unit, VerdictLimit limit) {
    Precision precision =
        limit != null && limit.getUnit().equals(unit)
            ? Precision.of(limit)
            : new Precision(Optional.empty(), unit);
    return precision.measure(value, words.reader().form());
  }

  /** How far a value lies from the limit in its own unit; empty where that is not its margin. */
  public Optional<String> apart(VerdictValue value, VerdictLimit limit) {
    return Optional.ofNullable(limit)
        .filter(held -> held.getUnit().equals(value.getUnit()))
        .filter(held -> isMargin(value.getMargin(), value.getValue() - held.getValue()))
        .map(held -> Precision.of(held).apart(value.getValue(), words.reader().form()));
  }

  private static boolean isMargin(double margin, double difference) {
    return Math.abs(Math.abs(margin) - Math.abs(difference)) <= 1e-9 * Math.abs(difference);
  }

  /** An inherited problem in one line. */
  public String line(InheritedTrouble trouble) {
    return inherited(trouble, words::plain);
  }

  public String lineHtml(InheritedTrouble trouble) {
    return inherited(trouble, words::html);
  }

  private String inherited(InheritedTrouble trouble, Rendering rendering) {
    return words.text(
        "standing.inherited",
        Map.of(
            "origin",
            words.named(Subject.parse(trouble.getOrigin())),
            "finding",
            rendering.of(findings(trouble).get(0), Precision.OF_DISTANCES)));
  }

  /** All that was found, without what to do. */
  public String whole(List<Coded> findings) {
    return words.inRow(findings);
  }

  /** Why a release is suspended or condemned; null where it is neither. */
  public String why(LotRelease release) {
    return release.getReason() == null
        ? release.getWhy()
        : words.plain(StatementRecords.read(release.getReason()));
  }

  /** The same as HTML, ids as links. */
  public Optional<String> whyHtml(LotRelease release) {
    return Optional.ofNullable(release.getReason())
        .map(StatementRecords::read)
        .or(
            () ->
                Optional.ofNullable(release.getWhy())
                    .map(why -> new BasisFinding.Recorded(why).coded()))
        .map(words::html);
  }

  /** The limit, as in {@code at most 5 plants in 150 m²}. */
  public String limit(VerdictLimit limit) {
    return words.limit(limitOf(limit));
  }

  /** Where it stands and how sure that is. */
  public String source(VerdictLimit limit) {
    return words.source(limitOf(limit));
  }

  private Optional<String> limit(GateVerdict verdict) {
    return Optional.ofNullable(verdict.getLimit()).map(this::limit);
  }

  /** A limit as the rulebooks have it, as far as a standing tells of it. */
  private static Limit limitOf(VerdictLimit limit) {
    double stated = limit.getStatedValue() == null ? limit.getValue() : limit.getStatedValue();
    return new Limit(
        Quantity.valueOf(limit.getQuantity()),
        Limit.Sense.valueOf(limit.getSense()),
        limit.getValue(),
        limit.getUnit(),
        new Limit.Stated(stated, Optional.ofNullable(limit.getStatedIn())),
        limit.getRulebookId(),
        limit.getEdition(),
        limit.getText(),
        limit.getSection(),
        limit.getInForceFrom(),
        Optional.ofNullable(limit.getInForceTo()).map(LocalDate::parse),
        limit.getVerified(),
        "",
        Optional.empty());
  }

  private static String key(VerdictState state) {
    return switch (state) {
      case MET -> "met";
      case NOT_MET, UNKNOWN -> "not-met";
      case OWED -> "owed";
    };
  }
}
