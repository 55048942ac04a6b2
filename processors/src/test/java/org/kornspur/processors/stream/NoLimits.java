package org.kornspur.processors.stream;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import org.kornspur.contract.Category;
import org.kornspur.contract.CropRole;
import org.kornspur.processors.standards.Limit;
import org.kornspur.processors.standards.Quantity;
import org.kornspur.processors.standards.Rulebook;
import org.kornspur.processors.standards.RulebookLine;
import org.kornspur.processors.standards.Rye;

/** A rulebook that limits nothing, for tests of what is not a rule. */
record NoLimits(String id) implements Rulebook {
  @Override
  public String title() {
    return "A book without limits";
  }

  @Override
  public String edition() {
    return "1";
  }

  @Override
  public Optional<Limit> forCrop(
      Quantity quantity, Category category, CropRole role, LocalDate on) {
    return Optional.empty();
  }

  @Override
  public Optional<Limit> forLot(Quantity quantity, Category category, Rye seed, LocalDate on) {
    return Optional.empty();
  }

  @Override
  public List<RulebookLine> lines() {
    return List.of();
  }

  @Override
  public Optional<Rulebook> tightens() {
    return Optional.empty();
  }
}
