package org.kornspur.ingest.problem;

/** What a person's table must be as a whole. */
public sealed interface WorkbookProblem extends IntakeReason {
  /** Neither a workbook of Office Open XML nor text. */
  record NoTable() implements WorkbookProblem {}

  /** A workbook of an older form, or one with a password. */
  record OldOrLocked() implements WorkbookProblem {}

  record Damaged() implements WorkbookProblem {}

  /** More than this once it is unpacked. */
  record TooMuchUnpacked(int mostMegabytes) implements WorkbookProblem {}

  record ExternalLinks() implements WorkbookProblem {}

  record Macros() implements WorkbookProblem {}

  record TooManyColumns(int most) implements WorkbookProblem {}

  record TooManyRows(int most) implements WorkbookProblem {}

  record CellTooLong(int most) implements WorkbookProblem {}

  record OtherEncoding() implements WorkbookProblem {}

  /** Neither the name of the sheet nor that of the file says what its rows are. */
  record NoKindOfFact() implements WorkbookProblem {}

  record NoHeader() implements WorkbookProblem {}
}
