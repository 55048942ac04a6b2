package org.kornspur.api.security.visibility;

import org.apache.avro.specific.SpecificRecord;
import org.kornspur.ingest.contract.Subject;

/**
 * What a caller may see of the data. What is not seen is answered exactly as what does not exist,
 * and is counted nowhere.
 *
 * <p>A subject next to a seen one, one step back or one step forward, may be named and no more: its
 * id and its enterprise. Model: Regulation (EC) No 178/2002, Article 18, by which an operator must
 * know whom it was supplied by and whom it supplied.
 */
public interface Visibility {

  /** The visibility of quality and auditors. */
  static Visibility everything() {
    return new Visibility() {
      @Override
      public boolean isWhole() {
        return true;
      }

      @Override
      public boolean withholdsNames() {
        return false;
      }

      @Override
      public boolean sees(Subject subject) {
        return true;
      }

      @Override
      public boolean names(Subject subject) {
        return true;
      }

      @Override
      public boolean sees(SpecificRecord fact) {
        return true;
      }
    };
  }

  /** Whether nothing is hidden, so that nothing need be looked up. */
  default boolean isWhole() {
    return false;
  }

  /** Whether ids of subjects that are not seen are withheld from texts too. */
  default boolean withholdsNames() {
    return true;
  }

  /** Whether everything about this subject is seen. */
  boolean sees(Subject subject);

  /**
   * Whether single facts of a subject that is not seen may be asked for, each of which is seen or
   * not by itself.
   */
  default boolean seesSingleFactsOf(Subject subject) {
    return false;
  }

  /** Whether this subject may be named: it is seen, or next to one that is. */
  boolean names(Subject subject);

  /** Whether this fact is seen. */
  boolean sees(SpecificRecord fact);
}
