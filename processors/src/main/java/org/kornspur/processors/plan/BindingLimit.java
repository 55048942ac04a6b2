package org.kornspur.processors.plan;

import java.util.Optional;
import org.kornspur.ingest.statement.Statement;
import org.kornspur.ingest.statement.Value.Amount;

/** What keeps a plan from growing more: the reason of a shortage. */
public sealed interface BindingLimit extends Statement {

  /** All seed of this kind that is in store now is used, and it cannot be grown in time. */
  record SeedInStore(String seedId, int year, Amount kg) implements BindingLimit {}

  /** Nothing of this kind is in store now, and it cannot be grown in time. */
  record NoSeedInStore(String seedId, int year) implements BindingLimit {}

  /** The interval between two multiplications leaves this year out. */
  record MultiplicationInterval(String seedId, int year) implements BindingLimit {}

  /** No crossing that gives this seed is declared, so it cannot be grown. */
  record NotGrown(String seedId) implements BindingLimit {}

  /** All ground of a limit is used. */
  record Ground(Optional<Generation> generation, int year, Amount mostHa) implements BindingLimit {}

  /** A person decided on the area. */
  record Pinned(String seedId, int year, Amount areaHa) implements BindingLimit {}

  /** The rest in store is held back as minimum stock. */
  record MinimumStock(String seedId, int year, Amount kg) implements BindingLimit {}
}
