package org.kornspur.ingest.proof;

/**
 * Something in an exported proof that is not as it was sealed.
 *
 * @param factId the fact that it is about; empty where it is about the whole
 */
public record ProofFinding(Kind kind, String factId, String expected, String found) {

  /** What was done. */
  public enum Kind {
    FACT_ALTERED("A fact was altered"),
    FACT_REMOVED("A fact was removed"),
    FACT_INSERTED("A fact was inserted"),
    FACT_REORDERED("Facts were put into another order"),
    READING_ALTERED("The readable form of a fact does not say what its bytes say"),
    SCHEMA_ALTERED("The schema that a fact is read by was altered"),
    NOT_IN_CHAIN("A fact is not at the place in the chain that it claims"),
    SEGMENT_BROKEN("A piece of the chain does not lead from one checkpoint to the other"),
    BAD_SIGNATURE("A signature does not fit what it stands under"),
    UNKNOWN_KEY("A signature is of a key that is not trusted"),
    MANIFEST_ALTERED("The list of the facts was altered");

    private final String sentence;

    Kind(String sentence) {
      this.sentence = sentence;
    }
  }

  /** What, where, expected and found, in one sentence for a person. */
  public String sentence() {
    return kind.sentence
        + (factId.isEmpty() ? "" : ": fact " + factId)
        + ". Expected "
        + expected
        + "; found "
        + found
        + ".";
  }
}
