package org.kornspur.api.export.paper;

import java.util.List;

/**
 * How many entries of each section are printed on the two pages of a lot: the first of these that
 * fits is taken. What has no room is counted there and stands in the appendix.
 */
enum LotPaperLimits {
  WIDE(16, 30, 8, 20, 360),
  NARROW(9, 20, 5, 12, 220),
  LEAST(4, 10, 2, 6, 120);

  private static final String CUT = "…";

  private final int problems;
  private final int met;
  private final int acts;
  private final int customers;
  private final int characters;

  LotPaperLimits(int problems, int met, int acts, int customers, int characters) {
    this.problems = problems;
    this.met = met;
    this.acts = acts;
    this.customers = customers;
    this.characters = characters;
  }

  /** A list as far as there is room, and how many of it are left out. */
  public record Some<T>(List<T> shown, int leftOut) {

    static <T> Some<T> of(List<T> all, int most) {
      int shown = Math.min(all.size(), most);
      return new Some<>(List.copyOf(all.subList(0, shown)), all.size() - shown);
    }
  }

  /** What is not met or owed, own or inherited. */
  <T> Some<T> problems(List<T> all) {
    return Some.of(all, problems);
  }

  <T> Some<T> met(List<T> all) {
    return Some.of(all, met);
  }

  <T> Some<T> acts(List<T> all) {
    return Some.of(all, acts);
  }

  <T> Some<T> customers(List<T> all) {
    return Some.of(all, customers);
  }

  /** A text as long as there is room for it, cut between words. */
  String cut(String text) {
    if (text == null || text.length() <= characters) {
      return text;
    }
    int blank = text.lastIndexOf(' ', characters);
    return text.substring(0, blank > characters / 2 ? blank : characters) + " " + CUT;
  }
}
