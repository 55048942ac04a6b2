package org.kornspur.api.page;

import io.quarkus.qute.i18n.Localized;
import io.quarkus.qute.i18n.MessageBundles;
import java.util.Arrays;
import java.util.Optional;
import org.kornspur.contract.ActKind;
import org.kornspur.contract.Category;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.processors.dossier.Material;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.standing.ReleaseStep;
import org.kornspur.standing.StandingState;
import org.kornspur.standing.VerdictState;

/**
 * The words of the trade in one language. What is stored by name and not known to this version is
 * shown by that name.
 */
public final class Trade {
  private final TradeMessages words;

  private Trade(TradeMessages words) {
    this.words = words;
  }

  /** The words in this language. */
  public static Trade in(Language language) {
    return new Trade(
        MessageBundles.get(TradeMessages.class, Localized.Literal.of(language.texts().toString())));
  }

  public String state(StandingState state) {
    return words.state(state);
  }

  /** A state of a standing by its stored name. */
  public String stateNamed(String name) {
    return known(StandingState.class, name).map(words::state).orElse(name);
  }

  public String verdict(VerdictState state) {
    return words.verdict(state);
  }

  public String release(ReleaseStep step) {
    return words.release(step);
  }

  /** An act by its stored name. */
  public String act(String name) {
    return known(ActKind.class, name).map(words::act).orElse(name);
  }

  /** A gate by its stored name. */
  public String gate(String name) {
    return known(Gate.class, name).map(words::gate).orElse(name);
  }

  /** A category by its stored name. */
  public String category(String name) {
    return known(Category.class, name).map(words::category).orElse(name);
  }

  /** A kind of seed by its stored name. */
  public String seed(String name) {
    return known(Material.Kind.class, name).map(words::seed).orElse(name);
  }

  public String fact(FactType type) {
    return words.fact(type);
  }

  /** A type of fact by its name in the contract. */
  public String fact(String contractName) {
    return Arrays.stream(FactType.values())
        .filter(type -> type.contractName().equals(contractName))
        .findFirst()
        .map(words::fact)
        .orElse(contractName);
  }

  /** A unit of the rulebooks, facts and gates. */
  public String unit(String unit) {
    return switch (unit) {
      case "plants/m2" -> words.plantsPerM2();
      case "plants/plant" -> words.plantsPerHundred();
      case "percentage points" -> words.percentagePoints();
      case "seeds" -> words.seeds();
      case "bodies" -> words.bodies();
      case "visits" -> words.visits();
      case "results" -> words.results();
      case "days" -> words.days();
      case "circles" -> words.circles();
      case "denials" -> words.denials();
      case "wrong" -> words.wrong();
      case "plants" -> words.plants();
      default -> unit;
    };
  }

  private static <E extends Enum<E>> Optional<E> known(Class<E> kind, String name) {
    return Arrays.stream(kind.getEnumConstants())
        .filter(value -> value.name().equals(name))
        .findFirst();
  }
}
