package org.kornspur.api.security.visibility;

import java.util.Set;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.contract.SubjectsNamed;

/** Of inspectors: every crop and what stands around it; of lots the id alone. */
record InspectorVisibility() implements Visibility {

  @Override
  public boolean withholdsNames() {
    return false;
  }

  @Override
  public boolean sees(Subject subject) {
    return switch (subject.kind()) {
      case CROP, SOURCE, HYBRID, ENTERPRISE -> true;
      case LOT -> false;
    };
  }

  @Override
  public boolean names(Subject subject) {
    return true;
  }

  @Override
  public boolean sees(SpecificRecord fact) {
    Set<Subject> subjects = SubjectsNamed.of(fact);
    boolean onlyLots = subjects.stream().allMatch(named -> named.kind() == Subject.Kind.LOT);
    return !onlyLots && subjects.stream().anyMatch(named -> isOfCrops(named, subjects));
  }

  /** A hybrid is named by facts of lots too; alone it is its own declaration. */
  private static boolean isOfCrops(Subject named, Set<Subject> all) {
    return switch (named.kind()) {
      case CROP, SOURCE -> true;
      case HYBRID, ENTERPRISE -> all.size() == 1;
      case LOT -> false;
    };
  }
}
