package org.kornspur.api.security.visibility;

import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import java.util.stream.Stream;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.api.readmodel.StandingIndex;
import org.kornspur.api.readmodel.StandingIndexRow;
import org.kornspur.contract.Dispatch;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.contract.SubjectsNamed;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.dossier.Report;
import org.kornspur.processors.pedigree.Edge;
import org.kornspur.processors.pedigree.Pedigree;

/**
 * Of a multiplier: the crops that its enterprise grows and the lots that come from these alone, one
 * step to either side by id, and no further. A lot that another's seed went into is not its own.
 *
 * <p>For one request: what was looked up is kept.
 */
final class GrowerVisibility implements Visibility {
  private final String enterpriseId;
  private final StandingIndex standings;
  private final Pedigree pedigree;
  private final Function<Subject, Dossier> dossiers;
  private final Map<Subject, Boolean> own = new HashMap<>();
  private final Map<Subject, Boolean> named = new HashMap<>();
  private Set<Subject> ownHybrids;
  private Set<Subject> nearSources;

  GrowerVisibility(
      String enterpriseId,
      StandingIndex standings,
      Pedigree pedigree,
      Function<Subject, Dossier> dossiers) {
    this.enterpriseId = enterpriseId;
    this.standings = standings;
    this.pedigree = pedigree;
    this.dossiers = dossiers;
  }

  @Override
  public boolean sees(Subject subject) {
    return switch (subject.kind()) {
      case LOT, CROP -> isOwn(subject);
      case HYBRID -> ownHybrids().contains(subject);
      case SOURCE -> nearSources().contains(subject);
      case ENTERPRISE -> subject.id().equals(enterpriseId);
    };
  }

  @Override
  public boolean names(Subject subject) {
    return named.computeIfAbsent(subject, one -> sees(one) || isNextToOwn(one));
  }

  @Override
  public boolean sees(SpecificRecord fact) {
    Set<Subject> subjects = SubjectsNamed.of(fact);
    if (subjects.stream().noneMatch(subject -> subject.kind().isJudged())) {
      return !subjects.isEmpty() && subjects.stream().allMatch(this::sees);
    }
    boolean isDelivery =
        fact instanceof Dispatch dispatch && dispatch.getCustomerId().equals(enterpriseId);
    boolean anyOwn = seedOf(subjects).anyMatch(this::isOwn);
    return (anyOwn || isDelivery)
        && seedOf(subjects).allMatch(this::names)
        && SeedMovements.endsIn(fact).stream().allMatch(this::isOwn);
  }

  private static Stream<Subject> seedOf(Set<Subject> subjects) {
    return subjects.stream().filter(subject -> subject.kind().isJudged());
  }

  private boolean isOwn(Subject subject) {
    Boolean known = own.get(subject);
    if (known == null) {
      // while it is looked at; a circle in the pedigree ends here
      own.put(subject, true);
      known = isHeld(subject) && parentsAreOwn(subject);
      own.put(subject, known);
    }
    return known;
  }

  private boolean isHeld(Subject subject) {
    Optional<StandingIndexRow> row = standings.row(subject);
    return row.isPresent() && row.get().holder().equals(Optional.of(enterpriseId));
  }

  /** A crop is grown from seed of others; a lot is made of its parents. */
  private boolean parentsAreOwn(Subject subject) {
    return subject.kind() == Subject.Kind.CROP
        || pedigree.edgesInto(subject).stream().map(Edge::parent).allMatch(this::isOwn);
  }

  private boolean isNextToOwn(Subject subject) {
    return pedigree.edgesOutOf(subject).stream().map(Edge::child).anyMatch(this::isOwnEnd)
        || pedigree.edgesInto(subject).stream().map(Edge::parent).anyMatch(this::isOwn);
  }

  private boolean isOwnEnd(Subject child) {
    return child.kind().isJudged() ? isOwn(child) : sees(child);
  }

  private Set<Subject> ownHybrids() {
    if (ownHybrids == null) {
      ownHybrids = new HashSet<>();
      for (StandingIndexRow row : ownRows()) {
        row.material()
            .ifPresent(material -> ownHybrids.add(Subject.hybrid(material.getHybridId())));
      }
    }
    return ownHybrids;
  }

  /** Pollen that the isolation of an own crop is measured against. */
  private Set<Subject> nearSources() {
    if (nearSources == null) {
      nearSources = new HashSet<>();
      for (StandingIndexRow row : ownRows()) {
        if (row.subject().kind() == Subject.Kind.CROP) {
          dossiers.apply(row.subject()).neighbours().stream()
              .map(Report.Neighbour::source)
              .filter(source -> source.kind() == Subject.Kind.SOURCE)
              .forEach(nearSources::add);
        }
      }
    }
    return nearSources;
  }

  private List<StandingIndexRow> ownRows() {
    return standings.matching(
        row -> row.holder().equals(Optional.of(enterpriseId)) && isOwn(row.subject()));
  }
}
