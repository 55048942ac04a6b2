package org.kornspur.api.text;

import java.util.Arrays;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.text.TextBundle;
import org.kornspur.standing.ReleaseStep;
import org.kornspur.standing.StandingState;
import org.kornspur.standing.VerdictState;

/**
 * The terms of the trade in one language. What is stored by name and not known to this version is
 * shown by that name.
 */
public final class DomainTerms {
  private final TextBundle texts;

  private DomainTerms(TextBundle texts) {
    this.texts = texts;
  }

  /** The terms in this language. */
  public static DomainTerms in(Language language) {
    return new DomainTerms(StatementTexts.in(language).texts());
  }

  public String state(StandingState state) {
    return stateNamed(state.name());
  }

  /** A state of a standing by its stored name. */
  public String stateNamed(String name) {
    return texts.term("StandingState", name);
  }

  public String verdict(VerdictState state) {
    return texts.term("VerdictState", state.name());
  }

  public String release(ReleaseStep step) {
    return texts.term("ReleaseStep", step.name());
  }

  /** An act by its stored name. */
  public String act(String name) {
    return texts.term("ActKind", name);
  }

  /** A gate by its stored name. */
  public String gate(String name) {
    return texts.term("Gate", name);
  }

  /** A category by its stored name. */
  public String category(String name) {
    return texts.term("Category", name);
  }

  /** A kind of seed by its stored name. */
  public String seed(String name) {
    return texts.term("Kind", name);
  }

  /**
   * A constant of the contract by its stored name.
   *
   * @param kind name of its enum; {@code Flag} for {@code true} and {@code false}
   */
  public String choice(String kind, String constant) {
    return texts.term(kind, constant);
  }

  public String fact(FactType type) {
    return texts.term("FactType", type.name());
  }

  /** A type of fact by its name in the contract. */
  public String fact(String contractName) {
    return Arrays.stream(FactType.values())
        .filter(type -> type.contractName().equals(contractName))
        .findFirst()
        .map(this::fact)
        .orElse(contractName);
  }

  /** A constant of an enumeration of the contract, by the names of both. */
  public String constant(String type, String name) {
    return texts.term(type, name);
  }
}
