package org.kornspur.processors.release;

import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.kornspur.processors.dossier.InheritedFinding;
import org.kornspur.processors.dossier.Material;
import org.kornspur.processors.finding.Fault;
import org.kornspur.processors.standards.RulesFingerprint;
import org.kornspur.processors.verdict.Fitness;
import org.kornspur.processors.verdict.Verdict;

/**
 * What the gates say of one dossier, before any question of release.
 *
 * @param standing what the verdicts come to
 * @param material what it is; empty while its origin is unknown
 * @param rulebook the rulebook that it was judged by; empty where none was found
 * @param verdicts one for each gate and aspect that applies
 * @param inherited what it takes over from ancestors
 * @param faults what could not be judged; for each there is a verdict that evidence is owed
 * @param rules fingerprint of the rules that it was judged by; empty where it is not known
 */
public record Assessment(
    Fitness standing,
    Optional<Material> material,
    Optional<Book> rulebook,
    List<Verdict> verdicts,
    List<InheritedFinding> inherited,
    List<Fault> faults,
    Optional<RulesFingerprint> rules) {

  /** A rulebook by id and edition. */
  public record Book(String id, String edition) {}

  /** With something more that could not be judged: what was fit now waits for evidence. */
  Assessment with(Fault fault) {
    return new Assessment(
        isFit() ? Fitness.EVIDENCE_OWED : standing,
        material,
        rulebook,
        Stream.concat(verdicts.stream(), Stream.of(fault.verdict())).toList(),
        inherited,
        Stream.concat(faults.stream(), Stream.of(fault)).toList(),
        rules);
  }

  /** Whether nothing stands against its release. */
  public boolean isFit() {
    return standing == Fitness.FIT;
  }

  /** Whether something stands against it, other than evidence that is still owed. */
  public boolean isUnfit() {
    return standing == Fitness.NOT_FIT;
  }
}
