package org.kornspur.api.web.record;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.kornspur.api.text.Addresses;
import org.kornspur.api.web.form.FactForm;
import org.kornspur.ingest.contract.FactType;

/** The form of a type of fact, made from its schema. */
public record ContractForm(FactType type) implements FactForm {

  /** Where the work is done that a fact tells of. */
  public enum Work {
    FIELD,
    PLANT,
    LABORATORY,
    DECLARATION,
    MENDING
  }

  /** Every type that a person may bring, in the order of the contract. */
  public static final List<ContractForm> ALL =
      Arrays.stream(FactType.values())
          .filter(type -> !type.isAct())
          .map(ContractForm::new)
          .toList();

  /** The one with this last part of its address. */
  static Optional<ContractForm> at(String path) {
    return ALL.stream().filter(form -> form.path().equals(path)).findFirst();
  }

  @Override
  public String name() {
    return type.name();
  }

  public String href() {
    return Addresses.form(type);
  }

  /** Where the work is done. */
  public Work work() {
    return switch (type) {
      case FIELD_CROP_DECLARED,
          SOWING,
          POLLEN_SOURCE_SEEN,
          FIELD_INSPECTION,
          STERILITY_CHECK,
          FLOWERING_SEEN,
          POST_CONTROL_RESULT ->
          Work.FIELD;
      case HARVEST, CONDITIONING, LOT_SPLIT, LOT_MERGE, BLEND, ADMIXTURE, SAMPLING, DISPATCH ->
          Work.PLANT;
      case GERMINATION_TEST,
          PURITY_TEST,
          OTHER_SEED_DETERMINATION,
          MOISTURE_TEST,
          KERNEL_WEIGHT_TEST,
          BLEND_COMPOSITION ->
          Work.LABORATORY;
      case ENTERPRISE_DECLARED, HYBRID_DECLARED, LOT_DECLARED -> Work.DECLARATION;
      case WITHDRAWAL -> Work.MENDING;
      case RELEASE, SUSPENSION, CONDEMNATION, DOWNGRADE, REFUSED_ACT ->
          throw new IllegalStateException("Acts are signed, not recorded");
    };
  }
}
