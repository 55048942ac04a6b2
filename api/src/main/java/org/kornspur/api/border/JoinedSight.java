package org.kornspur.api.border;

import java.util.List;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.api.access.Sight;
import org.kornspur.ingest.contract.Subject;

/** Of a person with several roles: what any of them sees; of one with none, nothing. */
record JoinedSight(List<Sight> sights) implements Sight {

  JoinedSight {
    sights = List.copyOf(sights);
  }

  @Override
  public boolean isWhole() {
    return sights.stream().anyMatch(Sight::isWhole);
  }

  @Override
  public boolean withholdsNames() {
    return sights.stream().allMatch(Sight::withholdsNames);
  }

  @Override
  public boolean sees(Subject subject) {
    return sights.stream().anyMatch(sight -> sight.sees(subject));
  }

  @Override
  public boolean seesSingleFactsOf(Subject subject) {
    return sights.stream().anyMatch(sight -> sight.seesSingleFactsOf(subject));
  }

  @Override
  public boolean names(Subject subject) {
    return sights.stream().anyMatch(sight -> sight.names(subject));
  }

  @Override
  public boolean sees(SpecificRecord fact) {
    return sights.stream().anyMatch(sight -> sight.sees(fact));
  }
}
