package org.kornspur.processors.plan.field;

/**
 * A crop of a plan on a field.
 *
 * @param areaHa hectares of the field that it takes
 * @param isPinned whether a person decided on it
 */
public record Placement(PlannedCrop crop, KnownField field, double areaHa, boolean isPinned) {}
