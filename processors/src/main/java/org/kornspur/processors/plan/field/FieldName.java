package org.kornspur.processors.plan.field;

import java.util.Comparator;

/**
 * A field as its grower calls it.
 *
 * @param enterpriseId who grows on it
 */
public record FieldName(String enterpriseId, String fieldId) implements Comparable<FieldName> {
  private static final Comparator<FieldName> ORDER =
      Comparator.comparing(FieldName::enterpriseId).thenComparing(FieldName::fieldId);

  @Override
  public int compareTo(FieldName other) {
    return ORDER.compare(this, other);
  }
}
