package org.kornspur.processors.gates;

import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.SortedSet;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.contract.FieldCropDeclared;
import org.kornspur.contract.SenderRole;
import org.kornspur.contract.Submission;
import org.kornspur.ingest.attestation.SignedSubmissions;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.statement.Statement;
import org.kornspur.ingest.statement.Value.Fact;
import org.kornspur.ingest.statement.Value.Person;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.dossier.Entry;
import org.kornspur.processors.finding.Advice;
import org.kornspur.processors.finding.Aspect;
import org.kornspur.processors.finding.Evidence;
import org.kornspur.processors.finding.OriginFinding;
import org.kornspur.processors.gates.Findings.GateAspect;
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
public final class UnprovenSenders {
  static final String CORRECTIONS = "unconfirmed corrections";
  static final String MAKERS = "makers";

  /** Of more the sentence gives the number alone. */
  private static final int MOST_NAMED = 3;

  /** Whoever sends thousands of corrections must not make a standing too large to be sent. */
  private static final int MOST_FACTS = 100;

  private UnprovenSenders() {}

  public static List<Verdict> judge(Dossier dossier) {
    return Stream.of(corrections(dossier), makers(dossier)).flatMap(Optional::stream).toList();
  }

  private static Optional<Verdict> corrections(Dossier dossier) {
    List<Statement> clauses = new ArrayList<>();
    SortedSet<String> factIds = new TreeSet<>();
    SortedSet<String> named = new TreeSet<>();
    Set<String> held = dossier.factIds();
    for (Entry entry : dossier.entries()) {
      String factId = entry.header().getFactId();
      for (Entry.Superseded by : entry.unconfirmed()) {
        if (by.isOfOtherSubject(entry.fact(), held)) {
          continue; // whoever sent it, it has no effect here
        }
        clauses.add(
            new OriginFinding.WouldSupersede(
                new Fact(by.byFactId()), by.recordedBy().map(Person::new), new Fact(factId)));
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
                  new OriginFinding.WouldReplace(
                      new Fact(header.getFactId()), new Person(header.getRecordedBy())));
            });
    if (clauses.isEmpty()) {
      return Optional.empty();
    }
    return Optional.of(
        Findings.of(
                GateAspect.of(Gate.ORIGIN, CORRECTIONS, new Aspect.Corrections()),
                factIds.stream().limit(MOST_FACTS).toList(),
                new OriginFinding.UnconfirmedCorrections(first(clauses), further(clauses)))
            .owed(
                Optional.empty(),
                List.of(
                    new Evidence.ConfirmationByQuality(
                        Fact.each(first(List.copyOf(named))), further(named))),
                List.of(new Advice.ConfirmOrWithdraw())));
  }

  private static <T> List<T> first(List<T> all) {
    return all.stream().limit(MOST_NAMED).toList();
  }

  private static Optional<Integer> further(Collection<?> all) {
    return all.size() > MOST_NAMED ? Optional.of(all.size() - MOST_NAMED) : Optional.empty();
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
                          factIds.add(FactType.idOf(fact));
                        }));
    if (enterprises.size() < 2) {
      return Optional.empty();
    }
    return Optional.of(
        Findings.of(
                GateAspect.of(Gate.ORIGIN, MAKERS, new Aspect.Makers()),
                factIds.stream().sorted().toList(),
                new OriginFinding.SeveralMakers(enterprises.size(), dossier.subject()))
            .owed(
                Optional.empty(),
                List.of(new Evidence.WithdrawalOfAllButOne()),
                List.of(new Advice.WithdrawOthers())));
  }

  private static boolean makes(SpecificRecord fact, Dossier dossier) {
    if (fact instanceof FieldCropDeclared) {
      return true;
    }
    String factId = FactType.idOf(fact);
    return dossier.edgesIn().stream().map(Edge::factId).anyMatch(factId::equals);
  }
}
