package org.kornspur.ingest.file;

import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.kornspur.ingest.intake.CountedNoun;
import org.kornspur.ingest.intake.Problem;
import org.kornspur.ingest.intake.ProblemWords;

/**
 * What became of a folder of files.
 *
 * @param files files read
 * @param accepted inputs that became facts
 * @param refused inputs, or whole files, that were refused
 * @param details the refused ones in order, the first {@link #MOST_DETAILS} of them
 * @param passedOver files that are not meant to hold facts, by name
 */
public record LoadReport(
    int files, long accepted, long refused, List<LoadReportLine> details, List<String> passedOver) {

  /** Most refusals that are listed one by one. */
  public static final int MOST_DETAILS = 10_000;

  /** Inputs read, accepted or refused. */
  public long inputs() {
    return accepted + refused;
  }

  /** The report as text: each refusal with file, line, problems and the original, then the sums. */
  public String text() {
    ProblemWords words = ProblemWords.in(Locale.UK, ZoneOffset.UTC);
    StringBuilder text = new StringBuilder();
    for (LoadReportLine input : details) {
      text.append(input.file());
      text.append(input.line() == 0 ? "" : ":" + input.line()).append(" refused\n");
      for (Problem problem : input.problems()) {
        text.append("  ").append(words.sentence(problem)).append('\n');
      }
      if (!input.original().isEmpty()) {
        text.append("  > ").append(input.original()).append('\n');
      }
    }
    if (refused > details.size()) {
      text.append("and ").append(refused - details.size()).append(" more refused\n");
    }
    passedOver.forEach(name -> text.append(name).append(" passed over: holds no facts\n"));
    return text.append(summary()).append('\n').toString();
  }

  /** The sums in one line. */
  public String summary() {
    return "%s, %s: %s accepted, %s refused"
        .formatted(
            CountedNoun.of(files, "file(s)"),
            CountedNoun.of(inputs(), "input(s)"),
            accepted,
            refused);
  }

  /** Gathers a report while a folder is read. */
  static final class Gathering {
    private final List<LoadReportLine> details = new ArrayList<>();
    private final List<String> passedOver = new ArrayList<>();
    private int files;
    private long accepted;
    private long refused;

    void file() {
      files++;
    }

    void accepted() {
      accepted++;
    }

    void refused(LoadReportLine input) {
      refused++;
      if (details.size() < MOST_DETAILS) {
        details.add(input);
      }
    }

    void passedOver(String file) {
      passedOver.add(file);
    }

    LoadReport report() {
      return new LoadReport(files, accepted, refused, details, passedOver);
    }
  }
}
