package org.kornspur.processors.finding;

/** Visits of field inspectors. */
public sealed interface InspectionFinding extends Finding {
  record Visits(int visits) implements InspectionFinding {}
}
