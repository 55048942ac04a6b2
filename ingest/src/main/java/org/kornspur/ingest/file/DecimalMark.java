package org.kornspur.ingest.file;

import java.util.Optional;
import java.util.regex.Pattern;
import org.kornspur.ingest.intake.Problems;
import org.kornspur.ingest.problem.CellProblem;

/** What stands before the decimals of a number: a point or a comma. */
public enum DecimalMark {
  POINT('.', ','),
  COMMA(',', '.');

  private final char mark;
  private final char other;
  private final Pattern decimal;
  private final Pattern grouped;
  private final Pattern groupsAlone;
  private final Pattern ambiguous;

  DecimalMark(char mark, char other) {
    this.mark = mark;
    this.other = other;
    String quotedMark = Pattern.quote(String.valueOf(mark));
    String quotedOther = Pattern.quote(String.valueOf(other));
    // 12.5, 0.123, 1.2345, .5: nobody parts thousands so
    this.decimal =
        Pattern.compile(
            "[+-]?(?:\\d{1,40}" + quotedMark + "\\d{0,40}|" + quotedMark + "\\d{1,40})");
    this.grouped =
        Pattern.compile("[+-]?\\d{1,3}(?:" + quotedOther + "\\d{3})+" + quotedMark + "\\d{1,40}");
    this.groupsAlone = Pattern.compile("[+-]?[1-9]\\d{0,2}(?:" + quotedOther + "\\d{3}){2,}");
    this.ambiguous = Pattern.compile("[+-]?[1-9]\\d{0,2}" + quotedMark + "\\d{3}");
  }

  /** The mark itself. */
  public char sign() {
    return mark;
  }

  /**
   * Whether a number that has this mark once could as well have its thousands parted by it, as
   * 1.250.
   */
  public boolean isAmbiguous(String number) {
    return ambiguous.matcher(number).matches();
  }

  /** What the numbers of a file tell of its decimal mark. */
  static final class Evidence {
    private static final Pattern WHOLE_OR_WRITTEN_BY_PROGRAM =
        Pattern.compile("[+-]?\\d{1,40}|[+-]?\\d{1,40}(?:\\.\\d{1,40})?[eE][+-]?\\d{1,3}");

    private final boolean[] decimals = new boolean[DecimalMark.values().length];
    private final boolean[] groups = new boolean[DecimalMark.values().length];
    private final Optional<DecimalMark> said;

    /**
     * @param said what a person said of the file; empty where nothing
     */
    Evidence(Optional<DecimalMark> said) {
      this.said = said;
    }

    /** Looks at a cell of a column of numbers. */
    void see(String text) {
      for (DecimalMark mark : values()) {
        boolean hasGroups =
            mark.grouped.matcher(text).matches() || mark.groupsAlone.matcher(text).matches();
        groups[mark.ordinal()] |= hasGroups;
        decimals[mark.ordinal()] |= mark.decimal.matcher(text).matches() && !mark.isAmbiguous(text);
      }
    }

    /** The mark of the file; empty where its numbers have none, or both. */
    Optional<DecimalMark> mark() {
      if (said.isPresent()) {
        return said;
      }
      boolean point = has(POINT);
      return point == has(COMMA) ? Optional.empty() : Optional.of(point ? POINT : COMMA);
    }

    private boolean has(DecimalMark mark) {
      return decimals[mark.ordinal()] || groups[mark.ordinal()];
    }

    /**
     * A number as JSON has it.
     *
     * @return empty where it is none, or can be read in two ways; that is noted
     */
    Optional<String> number(String cell, String path, Problems problems) {
      String text = cell.replaceAll("[\\u00a0\\u202f\\u2009' ](?=\\d{3}(?!\\d))", "");
      if (WHOLE_OR_WRITTEN_BY_PROGRAM.matcher(text).matches()) {
        return Optional.of(text);
      }
      for (DecimalMark mark : values()) {
        if (mark.isAmbiguous(text)) {
          return ambiguous(mark, text, cell, path, problems);
        }
      }
      for (DecimalMark mark : values()) {
        boolean isOne =
            mark.decimal.matcher(text).matches()
                || mark.grouped.matcher(text).matches()
                || mark.groupsAlone.matcher(text).matches();
        // what a person said of the file goes before what a number looks like
        if (isOne && said.filter(other -> other != mark).isEmpty()) {
          return Optional.of(mark.plain(text));
        }
      }
      problems.add(path, cell, new CellProblem.NoNumber());
      return Optional.empty();
    }

    private Optional<String> ambiguous(
        DecimalMark asDecimal, String text, String cell, String path, Problems problems) {
      DecimalMark asGroups = asDecimal == POINT ? COMMA : POINT;
      boolean isDecimal = mark().filter(asDecimal::equals).isPresent();
      // thousands are parted only in a file that shows that it parts them, or whose mark was said
      boolean isGrouped =
          mark().filter(asGroups::equals).isPresent()
              && (said.isPresent() || groups[asGroups.ordinal()]);
      if (isDecimal) {
        return Optional.of(asDecimal.plain(text));
      } else if (isGrouped) {
        return Optional.of(asGroups.plain(text));
      }
      problems.add(path, cell, new CellProblem.AmbiguousNumber());
      return Optional.empty();
    }
  }

  private String plain(String text) {
    return text.replace(String.valueOf(other), "").replace(mark, '.');
  }
}
