package org.kornspur.api.web.bench;

import java.util.Arrays;
import java.util.Optional;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.api.web.fieldbook.FactForm;
import org.kornspur.ingest.contract.FactType;

/** A form of the bench. */
public enum BenchForm implements FactForm {
  GERMINATION(FactType.GERMINATION_TEST),
  PURITY(FactType.PURITY_TEST),
  OTHER_SEEDS(FactType.OTHER_SEED_DETERMINATION),
  MOISTURE(FactType.MOISTURE_TEST);

  private final FactType type;

  BenchForm(FactType type) {
    this.type = type;
  }

  @Override
  public FactType type() {
    return type;
  }

  /** The form that makes facts of this type. */
  static Optional<BenchForm> of(SpecificRecord fact) {
    return Arrays.stream(values()).filter(form -> form.type == FactType.of(fact)).findFirst();
  }
}
