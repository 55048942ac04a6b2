package org.kornspur.ingest.intake;

import java.util.ArrayList;
import java.util.List;
import org.kornspur.ingest.problem.Given;
import org.kornspur.ingest.problem.InputProblem;
import org.kornspur.ingest.problem.Reason;

/**
 * Collects what is wrong with one input, all of it, up to a bound: a hostile input may hold ten
 * thousand faults, and twenty-five tell its sender enough.
 */
public final class Problems {

  /** Most problems that are written out for one input. */
  public static final int WRITTEN_OUT = 25;

  private final List<Problem> written = new ArrayList<>();
  private int count;

  /**
   * Notes a problem.
   *
   * @param value as {@link Given#of} takes it
   */
  public void add(String field, Object value, Reason reason) {
    add(Problem.of(field, value, reason));
  }

  public void add(Problem problem) {
    count++;
    if (written.size() < WRITTEN_OUT) {
      written.add(problem);
    }
  }

  /** How many were noted, written out or not. */
  public int count() {
    return count;
  }

  /** Whether nothing is wrong. */
  public boolean none() {
    return count == 0;
  }

  /** What was noted, in order; where it was more than is written out, the last entry says so. */
  public List<Problem> list() {
    if (count <= WRITTEN_OUT) {
      return List.copyOf(written);
    }
    List<Problem> all = new ArrayList<>(written);
    all.add(
        Problem.of(
            "",
            new Given.FurtherProblems(count - WRITTEN_OUT),
            new InputProblem.FurtherProblems(WRITTEN_OUT)));
    return List.copyOf(all);
  }
}
