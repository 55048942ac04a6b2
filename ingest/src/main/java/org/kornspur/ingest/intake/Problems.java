package org.kornspur.ingest.intake;

import java.util.ArrayList;
import java.util.List;

/**
 * Collects what is wrong with one input, all of it, up to a bound: a hostile input may hold ten
 * thousand faults, and twenty-five tell its sender enough.
 */
public final class Problems {

  /** Most problems that are written out for one input. */
  public static final int WRITTEN_OUT = 25;

  private final List<Problem> written = new ArrayList<>();
  private int count;

  /** Notes a problem; the value is put into a form that may be shown. */
  public void add(String field, Object value, String limit, String remedy) {
    add(new Problem(field, Problem.shown(value), limit, remedy));
  }

  /** Notes a problem whose value is described rather than shown, as "3 elements". */
  public void addDescribed(String field, String description, String limit, String remedy) {
    add(new Problem(field, Problem.described(description), limit, remedy));
  }

  /** Notes a problem. */
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
        new Problem(
            "",
            Counted.of(count - WRITTEN_OUT, "further problem(s)"),
            "no more than " + WRITTEN_OUT + " are written out",
            "Mend those above and send the input again"));
    return List.copyOf(all);
  }
}
