package org.kornspur.ingest.problem;

/** What a cell of a person's table must be, so that it can be read in one way only. */
public sealed interface CellProblem extends IntakeReason {
  /** What a formula gives depends on other cells, and nobody typed it. */
  record Formula() implements CellProblem {}

  /** As in {@code #REF!}. */
  record ErrorValue() implements CellProblem {}

  record NoNumber() implements CellProblem {}

  record NoDay() implements CellProblem {}

  record NoTime() implements CellProblem {}

  /** As in 1.234 where nothing in the file says what the point is. */
  record AmbiguousNumber() implements CellProblem {}

  /** As in 03/04/2026 where nothing in the file says which is the month. */
  record AmbiguousDay() implements CellProblem {}

  record YearOfTwoDigits() implements CellProblem {}

  /** Clocks were put forward over it. */
  record SkippedTime(String zone) implements CellProblem {}

  /** Clocks were put back, so it was twice. */
  record DoubledTime(String zone) implements CellProblem {}

  /** The spreadsheet took what was typed, as in 3-4, for a date. */
  record TakenForDate() implements CellProblem {}

  /** A number that the spreadsheet does not show as a date. */
  record NoDate() implements CellProblem {}

  /** A time of day where the contract knows days alone. */
  record DayAlone() implements CellProblem {}

  /** A spreadsheet keeps fifteen digits of a number. */
  record TooManyDigits() implements CellProblem {}

  /** The same row stands above. */
  record RowTwice(int row) implements CellProblem {}

  /** A row above has the id and says something else. */
  record IdTwice(int row) implements CellProblem {}
}
