package org.kornspur.api.export.label;

/** One thing that a label may have to say. */
public enum LabelItem {
  /** The rules that the seed was certified by. */
  NORM("fixed words"),
  COUNTRY("fixed words"),
  /** Who certified it, or its mark. */
  AUTHORITY("The certification authority prints its mark"),
  /** Number of the single label. */
  SERIAL_NUMBER("The certification authority gives each label its number"),
  SPECIES("fixed words"),
  /** Name of the variety, or of the component. */
  VARIETY("Declare what the lot is: the variety or component that its origin names"),
  CATEGORY("Declare the category that the lot's origin names"),
  /** Number of the lot. */
  LOT_REFERENCE("The certification authority gives the lot its number"),
  /** That the seed is a mixture of female and pollinator to be sown for hybrid seed. */
  TECHNICAL_MIXTURE("fixed words"),
  /** Month and year of sampling. */
  SAMPLED("Bring the Sampling of this lot"),
  COUNTRY_OF_PRODUCTION("State it when the label is ordered; no fact holds it"),
  /** Weight or number of seeds of the package. */
  PACKAGE_CONTENT("State it when the label is ordered; it is of the package, not of the lot"),
  /** That it is a hybrid, or a component of one. */
  HYBRID_STATUS("Declare what the lot is"),
  /** What the seed was treated with. */
  TREATMENT("fixed words"),
  GENERATIONS_BEFORE_CERTIFIED("State how many generations lie before certified seed");

  private final String remedy;

  LabelItem(String remedy) {
    this.remedy = remedy;
  }

  /** What to do where it is missing. */
  String remedy() {
    return remedy;
  }
}
