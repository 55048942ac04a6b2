package org.kornspur.ingest.problem;

import java.util.List;

/** What the columns and cells of a table of facts must be. */
public sealed interface TableProblem extends IntakeReason {
  record ElementIncomplete(List<String> fields) implements TableProblem {}

  record FieldTwice() implements TableProblem {}

  record ColumnTwice() implements TableProblem {}

  record UnknownColumn(String type, List<String> columns) implements TableProblem {}

  record UnusableHeader() implements TableProblem {}

  record NoTypeInName() implements TableProblem {}

  record UnknownType() implements TableProblem {}

  record OtherCellCount(int columns) implements TableProblem {}

  record SeveralRows() implements TableProblem {}

  record QuotationMarks() implements TableProblem {}
}
