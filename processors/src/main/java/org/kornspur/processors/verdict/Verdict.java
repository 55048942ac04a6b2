package org.kornspur.processors.verdict;

import java.util.List;
import java.util.Optional;
import org.kornspur.processors.standards.Limit;

/**
 * What one gate says of one dossier.
 *
 * <p>An aspect tells several verdicts of one gate apart ("wild oats", "other cereals"); it is empty
 * where the gate has one.
 */
public sealed interface Verdict {

  Gate gate();

  String aspect();

  /** The limit that it was judged by; empty where no rulebook was found. */
  Optional<Limit> limit();

  /** Ids of the facts that it rests on, in order. */
  List<String> factIds();

  /** One sentence for a person: what is so, with value, limit and, where not met, what to do. */
  String sentence();

  /** The value lies within the limit. */
  record Met(
      Gate gate,
      String aspect,
      Measured measured,
      Optional<Limit> limit,
      List<String> factIds,
      String sentence)
      implements Verdict {}

  /** The value lies outside the limit. */
  record NotMet(
      Gate gate,
      String aspect,
      Measured measured,
      Optional<Limit> limit,
      List<String> factIds,
      String sentence)
      implements Verdict {}

  /**
   * Evidence is missing, or what there is may not be used.
   *
   * @param owed what is to be brought, in the words of the trade
   */
  record Owed(
      Gate gate,
      String aspect,
      String owed,
      Optional<Limit> limit,
      List<String> factIds,
      String sentence)
      implements Verdict {}
}
