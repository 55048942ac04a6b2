package org.kornspur.ingest.intake;

import java.util.regex.Pattern;
import org.kornspur.ingest.problem.Given;
import org.kornspur.ingest.problem.IdProblem;

/**
 * What an id must be: 1 to 64 ASCII letters, digits and {@code - _ . : /}, beginning and ending
 * with a letter or digit, without {@code ..} or {@code //}.
 *
 * <p>ASCII alone, so that no two ids look the same and differ (a Cyrillic letter for a Latin one, a
 * composed accent for a combining one). No bar, comma, semicolon, equals sign or white space, which
 * part ids from each other in keys, files and lists; no {@code ..}, which climbs in paths.
 */
public final class IdRule {

  static final int LONGEST = 64;

  private static final Pattern FORM =
      Pattern.compile("[A-Za-z0-9](?:[A-Za-z0-9._:/-]{0,62}[A-Za-z0-9])?");

  private IdRule() {}

  static void check(String id, String kind, String path, Problems into) {
    if (isId(id)) {
      return;
    }
    into.add(path, Given.text(id, true), new IdProblem.NoId(kind, LONGEST));
  }

  /** Whether a text has the form of an id. */
  public static boolean isId(String id) {
    return id.length() <= LONGEST
        && FORM.matcher(id).matches()
        && !id.contains("..")
        && !id.contains("//");
  }
}
