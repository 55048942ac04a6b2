package org.kornspur.ingest.file;

import java.util.List;
import org.kornspur.ingest.intake.Problem;

/**
 * An input that was refused, as the report lists it.
 *
 * @param file path within the folder
 * @param line where it begins, from 1; 0 where the file was not opened
 * @param problems what is wrong, never empty
 * @param original the text as it came, shortened for reading; whole in the quarantine
 */
public record LoadReportLine(String file, long line, List<Problem> problems, String original) {}
