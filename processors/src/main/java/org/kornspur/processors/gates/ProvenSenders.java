package org.kornspur.processors.gates;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.SortedSet;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.contract.FieldCropDeclared;
import org.kornspur.contract.SenderRole;
import org.kornspur.contract.Submission;
import org.kornspur.ingest.act.SignedSubmissions;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.intake.Counted;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.dossier.Entry;
import org.kornspur.processors.pedigree.Edge;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.processors.verdict.Verdict;

/**
 * Evidence that is owed because of who sent a fact. It needs no rulebook, and nothing is said where
 * every sender is known and they agree.
 *
 * <p>A correction or withdrawal whose sender nothing proves takes no effect; what it was to take
 * back counts on, and the lot is not fit until somebody with the right to it confirms the one or
 * the other. Two growers who both say that they made a lot cannot both be right.
 */
public final class ProvenSenders {
  static final String CORRECTIONS = "unconfirmed corrections";
  static final String MAKERS = "makers";

  /** Of more the sentence gives the number alone. */
  private static final int MOST_NAMED = 3;

  /** Whoever sends thousands of corrections must not make a standing too large to be sent. */
  private static final int MOST_FACTS = 100;

  private ProvenSenders() {}

  public static List<Verdict> judge(Dossier dossier) {
    return Stream.of(corrections(dossier), makers(dossier)).flatMap(Optional::stream).toList();
  }

  private static Optional<Verdict> corrections(Dossier dossier) {
    List<String> clauses = new ArrayList<>();
    SortedSet<String> factIds = new TreeSet<>();
    SortedSet<String> named = new TreeSet<>();
    for (Entry entry : dossier.entries()) {
      String factId = entry.header().getFactId();
      for (Entry.Superseded by : entry.unconfirmed()) {
        clauses.add(
            "fact %s%s would take back or correct fact %s"
                .formatted(
                    by.byFactId(),
                    by.recordedBy().map(person -> " in the name of " + person).orElse(""),
                    factId));
        factIds.add(factId);
        factIds.add(by.byFactId());
        named.add(by.byFactId());
      }
    }
    dossier.entries().stream()
        .filter(entry -> entry.awaitsConfirmation() && entry.superseded().isEmpty())
        .map(Entry::header)
        .filter(header -> named.add(header.getFactId()))
        .forEach(
            header -> {
              factIds.add(header.getFactId());
              clauses.add(
                  "fact %s in the name of %s would take the place of an earlier fact"
                      .formatted(header.getFactId(), header.getRecordedBy()));
            });
    if (clauses.isEmpty()) {
      return Optional.empty();
    }
    return Optional.of(
        new Verdict.Owed(
            Gate.ORIGIN,
            CORRECTIONS,
            "the word of quality on " + String.join(", ", first(List.copyOf(named))),
            Optional.empty(),
            factIds.stream().limit(MOST_FACTS).toList(),
            ("Not confirmed: %s. Nothing proves who sent this, so it takes no effect. Where it is"
                    + " right, quality sends the same fact to POST /api/v1/facts. Where it is not,"
                    + " quality corrects the earlier fact with the values that it has, or withdraws"
                    + " the later one.")
                .formatted(String.join("; ", first(clauses)))));
  }

  private static List<String> first(List<String> all) {
    return all.size() <= MOST_NAMED
        ? all
        : Stream.concat(
                all.stream().limit(MOST_NAMED),
                Stream.of("and %d more".formatted(all.size() - MOST_NAMED)))
            .toList();
  }

  private static Optional<Verdict> makers(Dossier dossier) {
    SortedSet<String> enterprises = new TreeSet<>();
    List<String> factIds = new ArrayList<>();
    dossier
        .counting()
        .filter(fact -> makes(fact, dossier))
        .forEach(
            fact ->
                SignedSubmissions.of(fact)
                    .filter(submission -> submission.getRole() == SenderRole.MULTIPLIER)
                    .map(Submission::getEnterpriseId)
                    .ifPresent(
                        enterprise -> {
                          enterprises.add(enterprise);
                          factIds.add(FactType.headerOf(fact).getFactId());
                        }));
    if (enterprises.size() < 2) {
      return Optional.empty();
    }
    return Optional.of(
        new Verdict.Owed(
            Gate.ORIGIN,
            MAKERS,
            "the withdrawal of the facts of all but one of them",
            Optional.empty(),
            factIds.stream().sorted().toList(),
            ("%s say that they made %s. Quality finds out whose it is and withdraws the facts of"
                    + " the others, who give theirs another id.")
                .formatted(Counted.of(enterprises.size(), "enterprise(s)"), dossier.subject())));
  }

  private static boolean makes(SpecificRecord fact, Dossier dossier) {
    if (fact instanceof FieldCropDeclared) {
      return true;
    }
    String factId = FactType.headerOf(fact).getFactId();
    return dossier.edgesIn().stream().map(Edge::factId).anyMatch(factId::equals);
  }
}
