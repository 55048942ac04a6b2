package org.kornspur.processors.judging;

import java.util.List;
import java.util.Optional;
import org.kornspur.processors.dossier.Report;
import org.kornspur.processors.finding.Fault;
import org.kornspur.processors.ground.Plot;
import org.kornspur.processors.pedigree.Edge;

/**
 * All that follows from one dossier.
 *
 * @param standing standing of a crop or lot; empty for what is not judged
 * @param edges edges of the pedigree by which seed came into it, or left for a customer
 * @param reports what it tells its children and, of failures, the lot that it was split off; for a
 *     hybrid, what is made of it
 * @param place where it lies and what pollen it sheds; empty for what has no place
 * @param faults what broke while it was judged; in the standing each is a verdict that is owed
 */
public record Outcome(
    Optional<Standing> standing,
    List<Edge> edges,
    List<Report> reports,
    Optional<Plot> place,
    List<Fault> faults) {

  /** Of what is not judged and tells nobody anything. */
  static final Outcome NOTHING =
      new Outcome(Optional.empty(), List.of(), List.of(), Optional.empty(), List.of());
}
