package org.kornspur.api.web.bench;

import java.util.Arrays;
import java.util.Optional;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.api.web.fieldbook.FactForm;
import org.kornspur.ingest.contract.FactType;

/** A form of the bench. */
public enum BenchForm implements FactForm {
  GERMINATION("germination", FactType.GERMINATION_TEST),
  PURITY("purity", FactType.PURITY_TEST),
  OTHER_SEEDS("other-seeds", FactType.OTHER_SEED_DETERMINATION),
  MOISTURE("moisture", FactType.MOISTURE_TEST);

  private final String path;
  private final FactType type;

  BenchForm(String path, FactType type) {
    this.path = path;
    this.type = type;
  }

  @Override
  public String path() {
    return path;
  }

  @Override
  public FactType type() {
    return type;
  }

  /** The form that makes facts of this type. */
  static Optional<BenchForm> of(SpecificRecord fact) {
    FactType type = FactType.of(fact);
    return Arrays.stream(values()).filter(form -> form.type == type).findFirst();
  }
}
