package org.kornspur.api.web.laboratory;

import java.util.Arrays;
import java.util.Optional;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.api.web.form.FactForm;
import org.kornspur.ingest.contract.FactType;

/** A form of the laboratory. */
public enum LaboratoryForm implements FactForm {
  GERMINATION(FactType.GERMINATION_TEST),
  PURITY(FactType.PURITY_TEST),
  OTHER_SEEDS(FactType.OTHER_SEED_DETERMINATION),
  MOISTURE(FactType.MOISTURE_TEST);

  private final FactType type;

  LaboratoryForm(FactType type) {
    this.type = type;
  }

  @Override
  public FactType type() {
    return type;
  }

  /** The form that makes facts of this type. */
  static Optional<LaboratoryForm> of(SpecificRecord fact) {
    return Arrays.stream(values()).filter(form -> form.type == FactType.of(fact)).findFirst();
  }
}
