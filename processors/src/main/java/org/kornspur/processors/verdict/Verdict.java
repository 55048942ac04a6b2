package org.kornspur.processors.verdict;

import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.kornspur.ingest.statement.Coded;
import org.kornspur.processors.standards.Limit;

/**
 * What one gate says of one dossier.
 *
 * <p>An aspect tells several verdicts of one gate apart ("wild oats", "other cereals"); it is empty
 * where the gate has one.
 */
public sealed interface Verdict {

  Gate gate();

  /** Key of the aspect; stored and compared, never shown. */
  String aspect();

  /** The aspect as it is shown; empty where the gate has one only. */
  Optional<Coded> about();

  /** The limit that it was judged by; empty where no rulebook was found. */
  Optional<Limit> limit();

  /** Ids of the facts that it rests on, in order. */
  List<String> factIds();

  /** What was found, the most telling first; never empty. */
  List<Coded> findings();

  /** What to do, and what to beware of. */
  List<Coded> advice();

  /** The same verdict with these findings and this advice in place of its own. */
  Verdict saying(List<Coded> findings, List<Coded> advice);

  /** The same verdict with something more to do or to beware of. */
  default Verdict with(Coded further) {
    return saying(findings(), Stream.concat(advice().stream(), Stream.of(further)).toList());
  }

  /** The same verdict with these findings in place of its own. */
  default Verdict withFindings(List<Coded> findings) {
    return saying(findings, advice());
  }

  /** The same with findings after its own. */
  default Verdict withFurther(List<Coded> further) {
    return withFindings(Stream.concat(findings().stream(), further.stream()).toList());
  }

  /** The value lies within the limit. */
  record Met(
      Gate gate,
      String aspect,
      Optional<Coded> about,
      Measured measured,
      Optional<Limit> limit,
      List<String> factIds,
      List<Coded> findings,
      List<Coded> advice)
      implements Verdict {
    public Met {
      advice = advice == null ? List.of() : advice; // as earlier versions kept it
    }

    @Override
    public Verdict saying(List<Coded> instead, List<Coded> toDo) {
      return new Met(gate, aspect, about, measured, limit, factIds, instead, toDo);
    }

    /** What is owed after all, though the value lies within the limit. */
    public Owed owing(List<Coded> evidence, Optional<Limit> by, List<Coded> said) {
      return new Owed(gate, aspect, about, evidence, by, factIds, said, List.of());
    }
  }

  /** The value lies outside the limit. */
  record NotMet(
      Gate gate,
      String aspect,
      Optional<Coded> about,
      Measured measured,
      Optional<Limit> limit,
      List<String> factIds,
      List<Coded> findings,
      List<Coded> advice)
      implements Verdict {
    public NotMet {
      advice = advice == null ? List.of() : advice; // as earlier versions kept it
    }

    /** What is owed in its place, where the limit alone decides nothing. */
    public Verdict owing(Coded evidence, Coded further) {
      return new Owed(gate, aspect, about, List.of(evidence), limit, factIds, findings, advice)
          .withFurther(List.of(further));
    }

    @Override
    public Verdict saying(List<Coded> instead, List<Coded> toDo) {
      return new NotMet(gate, aspect, about, measured, limit, factIds, instead, toDo);
    }
  }

  /**
   * Evidence is missing, or what there is may not be used.
   *
   * @param evidence what is to be brought; never empty
   */
  record Owed(
      Gate gate,
      String aspect,
      Optional<Coded> about,
      List<Coded> evidence,
      Optional<Limit> limit,
      List<String> factIds,
      List<Coded> findings,
      List<Coded> advice)
      implements Verdict {
    public Owed {
      advice = advice == null ? List.of() : advice; // as earlier versions kept it
    }

    @Override
    public Verdict saying(List<Coded> instead, List<Coded> toDo) {
      return new Owed(gate, aspect, about, evidence, limit, factIds, instead, toDo);
    }
  }
}
