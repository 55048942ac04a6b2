package org.kornspur.api.readmodel;

import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.kornspur.api.text.VerdictWords;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.statement.Coded;
import org.kornspur.processors.finding.IsolationFinding;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.standing.GateVerdict;
import org.kornspur.standing.InheritedTrouble;

/**
 * Why seed is not fit, so that one thing that is wrong is one cause, however many crops and lots it
 * reaches.
 *
 * @param subject the crop or lot that something is wrong with, or the source of the pollen
 */
public record CauseKey(Kind kind, Subject subject) implements Comparable<CauseKey> {
  private static final Comparator<CauseKey> ORDER =
      Comparator.comparing(CauseKey::kind).thenComparing(CauseKey::subject);

  /** What a cause is. */
  public enum Kind {
    /** Something is wrong with a crop or lot itself. */
    SEED,
    /** A source of foreign pollen, another crop among them, stands too near to some crops. */
    POLLEN
  }

  /** The cause for which a crop or lot does not meet a gate of its own. */
  public static CauseKey of(Subject judged, GateVerdict verdict) {
    return of(judged, verdict.getGate(), VerdictWords.findings(verdict));
  }

  /** The cause of what was inherited. */
  static CauseKey of(InheritedTrouble trouble) {
    return of(
        Subject.parse(trouble.getOrigin()), trouble.getGate(), VerdictWords.findings(trouble));
  }

  private static CauseKey of(Subject origin, String gate, List<Coded> findings) {
    return gate.equals(Gate.ISOLATION.name())
        ? IsolationFinding.Source.in(findings)
            .map(source -> new CauseKey(Kind.POLLEN, source))
            .orElseGet(() -> new CauseKey(Kind.SEED, origin))
        : new CauseKey(Kind.SEED, origin);
  }

  /** As notes name it and addresses hold it, as in {@code seed:lot:L24-S05}. */
  public String text() {
    return kind.name().toLowerCase(Locale.ROOT) + ":" + subject;
  }

  /** Reads the text form; empty for any other text. */
  public static Optional<CauseKey> parse(String text) {
    int colon = text.indexOf(':');
    return Arrays.stream(Kind.values())
        .filter(kind -> colon > 0 && kind.name().equalsIgnoreCase(text.substring(0, colon)))
        .findFirst()
        .flatMap(kind -> subject(text.substring(colon + 1)).map(one -> new CauseKey(kind, one)));
  }

  private static Optional<Subject> subject(String text) {
    try {
      return Optional.of(Subject.parse(text));
    } catch (IllegalArgumentException none) {
      return Optional.empty();
    }
  }

  @Override
  public int compareTo(CauseKey other) {
    return ORDER.compare(this, other);
  }
}
