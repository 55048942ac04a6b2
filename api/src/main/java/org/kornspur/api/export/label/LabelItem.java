package org.kornspur.api.export.label;

/** One thing that a label may have to say. */
public enum LabelItem {
  /** The rules that the seed was certified by. */
  NORM,
  COUNTRY,
  /** Who certified it, or its mark. */
  AUTHORITY,
  /** Number of the single label. */
  SERIAL_NUMBER,
  SPECIES,
  /** Name of the variety, or of the component. */
  VARIETY,
  CATEGORY,
  /** Number of the lot. */
  LOT_REFERENCE,
  /** That the seed is a mixture of female and pollinator to be sown for hybrid seed. */
  TECHNICAL_MIXTURE,
  /** Month and year of sampling. */
  SAMPLED,
  COUNTRY_OF_PRODUCTION,
  /** Weight or number of seeds of the package. */
  PACKAGE_CONTENT,
  /** That it is a hybrid, or a component of one. */
  HYBRID_STATUS,
  /** What the seed was treated with. */
  TREATMENT,
  GENERATIONS_BEFORE_CERTIFIED
}
