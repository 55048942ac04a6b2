package org.kornspur.processors.plan.field;

import org.kornspur.processors.ground.Area;
import org.kornspur.processors.ground.Outline;

/**
 * A field that was declared for some crop.
 *
 * @param outline as it was declared last
 * @param areaHa of the outline, hectares
 */
public record KnownField(FieldName name, Outline outline, double areaHa) {

  /** A field with the area of its outline. */
  public static KnownField of(FieldName name, Outline outline) {
    return new KnownField(name, outline, Area.hectares(outline));
  }
}
