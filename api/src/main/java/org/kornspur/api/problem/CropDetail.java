package org.kornspur.api.problem;

import java.util.Optional;
import org.kornspur.contract.CropRole;
import org.kornspur.contract.ShareBasis;
import org.kornspur.ingest.problem.Given;

/** Why a declared crop or hybrid gives no advice. */
public sealed interface CropDetail extends Detail {
  record NotDeclared(Given crop) implements CropDetail {}

  record UnknownRulebook(Given rulebook) implements CropDetail {}

  /** Hybridity is forecast for mixtures that give F1 seed. */
  record NoMixture(Given crop, Optional<CropRole> role) implements CropDetail {}

  /** A crop of one component alone has nothing that must flower together. */
  record NoPollenParent(Given crop, Optional<CropRole> role) implements CropDetail {}

  record HybridNotDeclared(Given hybrid) implements CropDetail {}

  record NoCrossOfHybrid(Given hybrid) implements CropDetail {}

  record OtherBasis(ShareBasis breeders, ShareBasis asked) implements CropDetail {}

  /** Nobody thought of why, so the words are those of the program. */
  record NotCalculated(String fault) implements CropDetail {}
}
