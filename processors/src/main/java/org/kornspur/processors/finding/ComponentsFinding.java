package org.kornspur.processors.finding;

import java.util.List;
import java.util.Optional;
import org.kornspur.contract.Category;
import org.kornspur.contract.ComponentKind;
import org.kornspur.contract.CropRole;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.statement.Coded;
import org.kornspur.ingest.statement.Statement;
import org.kornspur.ingest.statement.Value.Amount;
import org.kornspur.processors.dossier.Material;

/** Whether what was sown or mixed is what the crossing scheme asks for. */
public sealed interface ComponentsFinding extends Finding {
  record Right(Subject hybrid) implements ComponentsFinding {}

  record RightMixture(Subject hybrid) implements ComponentsFinding {}

  record OneMaterial(List<Statement> seed) implements ComponentsFinding {}

  record Wrong(List<Coded> faults) implements ComponentsFinding {}

  record PollenParentStood() implements ComponentsFinding {}

  record PollenParentAnswered() implements ComponentsFinding {}

  record PollenParentUnknown() implements ComponentsFinding {}

  record NotKnown() implements ComponentsFinding {}

  record CropGivesOther(String declared, Subject hybrid) implements ComponentsFinding {}

  record WentInAs(Subject lot, Part as, Statement seed, String asked)
      implements ComponentsFinding {}

  record DifferentSeed(List<Statement> seed) implements ComponentsFinding {}

  /** Share of open-pollinated rye that was added to hybrid seed. */
  record OpenPollinated(Amount share) implements ComponentsFinding {}

  record NotOfRole(String component, Optional<ComponentKind> kind, CropRole role)
      implements ComponentsFinding {}

  record OtherPollen(String declared, String asked) implements ComponentsFinding {}

  /** Seed of a component that the scheme of its hybrid does not know. */
  record NotInScheme(String component, Subject hybrid) implements ComponentsFinding {}

  record NoCross(String seed) implements ComponentsFinding {}

  record WasSown(Subject lot, Statement seed, Statement asked) implements ComponentsFinding {}

  /** Seed of too low a category was sown or mixed. */
  record CategoryTooLow(Subject lot, Category is, Category last) implements ComponentsFinding {}

  record Seed(Material.Kind kind, String seed, Category category) implements ComponentsFinding {}

  record FemaleOrPollen(String female, String pollen) implements ComponentsFinding {}

  record Line(String component) implements ComponentsFinding {}

  record MixtureOf(Subject hybrid) implements ComponentsFinding {}
}
