package org.kornspur.ingest.file;

import java.util.List;
import org.kornspur.ingest.intake.Problem;
import org.kornspur.ingest.sheet.SheetCell;

/**
 * A refused row of a table as it stood, to be given back.
 *
 * @param sheet its place among the sheets that hold facts, from 0
 */
public record RefusedRow(int sheet, int row, List<SheetCell> cells, List<Problem> problems) {}
