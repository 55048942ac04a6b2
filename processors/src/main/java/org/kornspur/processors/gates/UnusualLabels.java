package org.kornspur.processors.gates;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeSet;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.kornspur.contract.Dispatch;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.statement.Value.Fact;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.finding.Aspect;
import org.kornspur.processors.finding.OriginFinding;
import org.kornspur.processors.verdict.Verdict;

/**
 * Numbers of official labels that can be none, or stand on bags of several deliveries. The contract
 * takes any text; the number is given by the authority, each once: Seed Ordinance (SaatV), Annex 5
 * no. 1.3a, read. What it looks like is common practice, no source. A delivery that names none
 * claims nothing; the drill of a recall says so.
 */
final class UnusualLabels {
  /** Letters and digits, a digit among them, parted by blanks or marks. */
  private static final Pattern NUMBER =
      Pattern.compile("(?=[^0-9]*[0-9])[A-Za-z0-9](?:[A-Za-z0-9 ./-]{0,62}[A-Za-z0-9])?");

  private UnusualLabels() {}

  static Stream<Verdict> judge(Dossier dossier) {
    List<Dispatch> deliveries = dossier.facts(Dispatch.class);
    return Stream.concat(unreadable(deliveries).stream(), usedAgain(deliveries).stream());
  }

  private static Optional<Verdict> unreadable(List<Dispatch> deliveries) {
    List<String> factIds =
        FactType.idsOf(
            deliveries.stream()
                .filter(
                    delivery ->
                        delivery.getLabelNumbers().stream()
                            .anyMatch(number -> !NUMBER.matcher(number.strip()).matches()))
                .toList());
    return factIds.isEmpty()
        ? Optional.empty()
        : Optional.of(
            UnusualFacts.owed(
                "label numbers",
                new Aspect.LabelNumbers(),
                factIds,
                new OriginFinding.UnreadableLabels(Fact.each(factIds)),
                Optional.empty()));
  }

  private static Optional<Verdict> usedAgain(List<Dispatch> deliveries) {
    Map<String, String> first = new HashMap<>();
    TreeSet<String> factIds = new TreeSet<>();
    for (Dispatch delivery : deliveries) {
      String factId = FactType.idOf(delivery);
      for (String number : delivery.getLabelNumbers()) {
        String earlier = first.putIfAbsent(number.strip(), factId);
        if (earlier != null && !earlier.equals(factId)) {
          factIds.add(earlier);
          factIds.add(factId);
        }
      }
    }
    return factIds.isEmpty()
        ? Optional.empty()
        : Optional.of(
            UnusualFacts.owed(
                "labels used again",
                new Aspect.LabelNumbers(),
                List.copyOf(factIds),
                new OriginFinding.LabelsUsedAgain(Fact.each(factIds)),
                Optional.empty()));
  }
}
