package org.kornspur.processors.advice;

import java.util.Optional;
import org.kornspur.processors.statistics.Heterogeneity;

/** What was tested in the containers of a lot, one by one. */
public enum ContainerAttribute {
  PURITY(Heterogeneity.Attribute.PURITY),
  GERMINATION(Heterogeneity.Attribute.GERMINATION),
  OTHER_SEEDS(Heterogeneity.Attribute.OTHER_SEEDS),
  /** Pollinator kernels among those told apart. */
  BLEND_SHARE(null);

  private final Heterogeneity.Attribute tabulated;

  ContainerAttribute(Heterogeneity.Attribute tabulated) {
    this.tabulated = tabulated;
  }

  /** The same where the rules for seed testing have an H value and a range for it. */
  public Optional<Heterogeneity.Attribute> tabulated() {
    return Optional.ofNullable(tabulated);
  }
}
