package org.kornspur.processors.finding;

import java.util.List;
import org.kornspur.contract.Category;
import org.kornspur.contract.CropRole;
import org.kornspur.ingest.statement.Statement;
import org.kornspur.processors.dossier.Material;
import org.kornspur.processors.standards.Quantity;

/** What a rulebook asks for, where that is no limit. */
public sealed interface RuleFinding extends Finding {

  /** It asks for nothing; that is never counted as met. */
  record NothingAsked(List<Quantity> what, Statement source) implements RuleFinding {}

  /** It has no line, so nobody knows what it asks for. */
  record NoLine(List<Quantity> what, String rulebook, Category category) implements RuleFinding {}

  /** What holds for one category is taken from another. */
  record JudgedAs(Category category, Category as, Statement source) implements RuleFinding {}

  /** Parts of a lot that are of several books. */
  record SeveralBooks(List<String> rulebooks) implements RuleFinding {}

  /** A mixture is judged by the book of its female lots, though a pollinator is of another. */
  /** Seed that was sown was judged by other books than the crop is. */
  record SownOfOtherBooks(String rulebook, List<String> others) implements RuleFinding {}

  record JudgedByBookOfFemale(String rulebook, List<String> others) implements RuleFinding {}

  record CropCannotBe(CropRole role, Category category) implements RuleFinding {}

  record SeedCannotBe(Material.Kind kind, Category category) implements RuleFinding {}
}
