package org.kornspur.api.query;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.kornspur.api.kafka.NotReady;
import org.kornspur.api.kafka.ProcessorsClient;
import org.kornspur.api.query.view.Caution.Treatment;
import org.kornspur.contract.Conditioning;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.dossier.Entry;
import org.kornspur.processors.pedigree.Edge;
import org.kornspur.processors.pedigree.Pedigree;

/**
 * Finds out whether a lot was treated: by a conditioning that it came out of, or one that any lot
 * it was split, merged or mixed from came out of. Sowing ends the search, since a harvest carries
 * no treatment.
 */
record SeedTreatments(ProcessorsClient processors) {
  private static final int MOST_LOTS = 500;

  Treatment of(Subject subject) {
    if (subject.kind() != Subject.Kind.LOT) {
      return new Treatment.None();
    }
    try {
      return search(subject);
    } catch (NotReady notReady) {
      return new Treatment.Unknown();
    }
  }

  private Treatment search(Subject lot) {
    Pedigree pedigree = processors.pedigree();
    Set<Subject> seen = new HashSet<>(List.of(lot));
    Deque<Subject> open = new ArrayDeque<>(seen);
    while (!open.isEmpty()) {
      Subject here = open.remove();
      List<Edge> into = pedigree.edgesInto(here);
      Optional<String> treatment = treatmentOf(here, into);
      if (treatment.isPresent()) {
        return new Treatment.With(treatment.get());
      }
      into.stream()
          .map(Edge::parent)
          .filter(parent -> parent.kind() == Subject.Kind.LOT)
          .filter(seen::add)
          .forEach(open::add);
      if (seen.size() > MOST_LOTS) {
        return new Treatment.Unknown();
      }
    }
    return new Treatment.None();
  }

  private Optional<String> treatmentOf(Subject lot, List<Edge> into) {
    if (into.stream().noneMatch(edge -> edge.by() == FactType.CONDITIONING)) {
      return Optional.empty();
    }
    return processors.entries(lot).stream()
        .filter(Entry::counts)
        .map(Entry::fact)
        .filter(Conditioning.class::isInstance)
        .map(Conditioning.class::cast)
        .filter(conditioning -> gives(conditioning, lot))
        .flatMap(conditioning -> Optional.ofNullable(conditioning.getTreatment()).stream())
        .findFirst();
  }

  private static boolean gives(Conditioning conditioning, Subject lot) {
    return conditioning.getOutputs().stream()
        .anyMatch(output -> Subject.lot(output.getLotId()).equals(lot));
  }
}
