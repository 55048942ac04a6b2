package org.kornspur.api.recall;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.inject.Instance;
import jakarta.inject.Inject;
import java.util.List;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.api.access.Sight;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.pedigree.Edge;
import org.kornspur.processors.pedigree.Pedigree;

/** What of the data the caller sees. */
@ApplicationScoped
public class Seen {
  private final Instance<Sight> sight;

  @Inject
  public Seen(Instance<Sight> sight) {
    this.sight = sight;
  }

  public boolean sees(Subject subject) {
    return sight.stream().allMatch(border -> border.sees(subject));
  }

  public boolean sees(SpecificRecord fact) {
    return sight.stream().allMatch(border -> border.sees(fact));
  }

  /** The pedigree as far as it is seen: it ends one step beyond what is seen. */
  public Pedigree within(Pedigree whole) {
    if (sight.stream().allMatch(Sight::isWhole)) {
      return whole;
    }
    return new Pedigree() {
      @Override
      public List<Edge> edgesInto(Subject child) {
        return sees(child) ? named(whole.edgesInto(child)) : List.of();
      }

      @Override
      public List<Edge> edgesOutOf(Subject parent) {
        return sees(parent) ? named(whole.edgesOutOf(parent)) : List.of();
      }
    };
  }

  private List<Edge> named(List<Edge> edges) {
    return edges.stream().filter(edge -> names(edge.parent()) && names(edge.child())).toList();
  }

  private boolean names(Subject subject) {
    return sight.stream().allMatch(border -> border.names(subject));
  }
}
