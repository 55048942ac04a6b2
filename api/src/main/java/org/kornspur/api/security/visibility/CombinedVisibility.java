package org.kornspur.api.security.visibility;

import java.util.List;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.ingest.contract.Subject;

/** Of a person with several roles: what any of them sees; of one with none, nothing. */
record CombinedVisibility(List<Visibility> visibilities) implements Visibility {

  CombinedVisibility {
    visibilities = List.copyOf(visibilities);
  }

  @Override
  public boolean isWhole() {
    return visibilities.stream().anyMatch(Visibility::isWhole);
  }

  @Override
  public boolean withholdsNames() {
    return visibilities.stream().allMatch(Visibility::withholdsNames);
  }

  @Override
  public boolean sees(Subject subject) {
    return visibilities.stream().anyMatch(visibility -> visibility.sees(subject));
  }

  @Override
  public boolean seesSingleFactsOf(Subject subject) {
    return visibilities.stream().anyMatch(visibility -> visibility.seesSingleFactsOf(subject));
  }

  @Override
  public boolean names(Subject subject) {
    return visibilities.stream().anyMatch(visibility -> visibility.names(subject));
  }

  @Override
  public boolean sees(SpecificRecord fact) {
    return visibilities.stream().anyMatch(visibility -> visibility.sees(fact));
  }
}
