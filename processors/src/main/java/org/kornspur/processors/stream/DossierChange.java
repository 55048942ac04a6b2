package org.kornspur.processors.stream;

import java.util.Set;

/** What was put into a dossier, so that it is to be judged; or that the marked ones are due. */
sealed interface DossierChange {

  /**
   * A fact, or that one was superseded.
   *
   * @param parents subjects in text form that the fact names as parents of the dossier's own
   * @param hybrids hybrids that it names, likewise
   * @param laboratories those whose result it is, likewise
   */
  record OfFact(Set<String> parents, Set<String> hybrids, Set<String> laboratories)
      implements DossierChange {
    static final OfFact OF_NONE = new OfFact(Set.of(), Set.of(), Set.of());
  }

  /**
   * What a parent, a hybrid or an isolation cell tells, or that it tells it no more.
   *
   * @param sender who tells
   */
  record OfReport(String sender) implements DossierChange {}

  /** Nothing; the reminder of the task is back. */
  record Reminder() implements DossierChange {}
}
