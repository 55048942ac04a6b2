package org.kornspur.api.readmodel;

import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.contract.FieldCropDeclared;
import org.kornspur.contract.PollenSourceSeen;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.plan.field.FieldName;

/**
 * Which crops and sources some fact puts on a field or in a year. What counts of them by now must
 * be asked of the facts themselves.
 */
public final class GroundIndex {
  private final Map<FieldName, Set<Subject>> byField = new TreeMap<>();
  private final Map<Integer, Set<Subject>> byYear = new TreeMap<>();

  synchronized void clear() {
    byField.clear();
    byYear.clear();
  }

  synchronized void put(SpecificRecord fact) {
    if (fact instanceof FieldCropDeclared crop) {
      Subject subject = Subject.crop(crop.getCropId());
      byYear.computeIfAbsent(crop.getCropYear(), year -> new TreeSet<>()).add(subject);
      byField
          .computeIfAbsent(
              new FieldName(crop.getEnterpriseId(), crop.getFieldId()), field -> new TreeSet<>())
          .add(subject);
    } else if (fact instanceof PollenSourceSeen seen) {
      byYear
          .computeIfAbsent(seen.getCropYear(), year -> new TreeSet<>())
          .add(Subject.source(seen.getSourceId()));
    }
  }

  /** Every field that a crop was declared on. */
  public synchronized List<FieldName> fields() {
    return List.copyOf(byField.keySet());
  }

  /** The crops that were declared on a field. */
  public synchronized List<Subject> cropsOn(FieldName field) {
    return List.copyOf(byField.getOrDefault(field, Set.of()));
  }

  /** The crops and sources of years of harvest, both included. */
  public synchronized List<Subject> ofYears(int first, int last) {
    return byYear.entrySet().stream()
        .filter(year -> year.getKey() >= first && year.getKey() <= last)
        .flatMap(year -> year.getValue().stream())
        .distinct()
        .toList();
  }
}
