package org.kornspur.api.security.visibility;

import java.util.List;
import java.util.function.Function;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.dossier.Entry;

/** Of a laboratory: the samples that are assigned to it, and its own tests. */
final class LaboratoryVisibility implements Visibility {
  private final String laboratoryId;
  private final Function<Subject, List<Entry>> dossiers;

  LaboratoryVisibility(String laboratoryId, Function<Subject, List<Entry>> dossiers) {
    this.laboratoryId = laboratoryId;
    this.dossiers = dossiers;
  }

  @Override
  public boolean sees(Subject subject) {
    return subject.equals(Subject.enterprise(laboratoryId));
  }

  @Override
  public boolean seesSingleFactsOf(Subject subject) {
    return subject.kind() == Subject.Kind.LOT;
  }

  @Override
  public boolean names(Subject subject) {
    return sees(subject)
        || (subject.kind() == Subject.Kind.LOT
            && dossiers.apply(subject).stream().map(Entry::fact).anyMatch(this::sees));
  }

  @Override
  public boolean sees(SpecificRecord fact) {
    return FactType.text(fact, "laboratoryId").filter(laboratoryId::equals).isPresent();
  }
}
