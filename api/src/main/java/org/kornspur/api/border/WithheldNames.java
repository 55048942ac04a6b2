package org.kornspur.api.border;

import java.net.URLDecoder;
import java.nio.charset.StandardCharsets;
import java.util.HashMap;
import java.util.Map;
import java.util.regex.MatchResult;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.kornspur.api.access.Sight;
import org.kornspur.api.feed.StandingIndex;
import org.kornspur.ingest.contract.Subject;

/**
 * Takes the ids of lots and crops that a caller may not name out of texts: sentences of verdicts,
 * ids of facts that hold the id of what they are about, addresses. What a view leaves out is left
 * out there; this holds what slips through in words.
 *
 * <p>For one answer: what was looked up is kept.
 */
final class WithheldNames {
  static final String WITHHELD = "(withheld)";

  /** What an id can be made of, and more: ids stand within ids. */
  private static final Pattern WORD = Pattern.compile("[A-Za-z0-9][A-Za-z0-9._:/-]*");

  private static final Pattern PART = Pattern.compile("[A-Za-z0-9]+");
  private static final int MOST_PARTS = 40;

  private final StandingIndex standings;
  private final Sight sight;
  private final Map<String, Boolean> hidden = new HashMap<>();

  WithheldNames(StandingIndex standings, Sight sight) {
    this.standings = standings;
    this.sight = sight;
  }

  /** The text without them. */
  String takenOutOf(String text) {
    if (text.indexOf('%') >= 0 && !decoded(text).equals(words(decoded(text)))) {
      return WITHHELD;
    }
    return words(text);
  }

  private String words(String text) {
    Matcher words = WORD.matcher(text);
    return words.replaceAll(
        word ->
            hidden.computeIfAbsent(word.group(), this::holdsHidden)
                ? WITHHELD
                : Matcher.quoteReplacement(word.group()));
  }

  private static String decoded(String text) {
    try {
      return URLDecoder.decode(text, StandardCharsets.UTF_8);
    } catch (IllegalArgumentException noAddress) {
      return text;
    }
  }

  /** Looks at the longest runs of parts first: an own id may hold the id of another's lot. */
  private boolean holdsHidden(String word) {
    MatchResult[] parts =
        PART.matcher(word).results().limit(MOST_PARTS).toArray(MatchResult[]::new);
    boolean[] settled = new boolean[parts.length];
    for (int length = parts.length; length > 0; length--) {
      for (int first = 0; first + length <= parts.length; first++) {
        String run = word.substring(parts[first].start(), parts[first + length - 1].end());
        if (!isSettled(settled, first, length)) {
          switch (look(run)) {
            case HIDDEN -> {
              return true;
            }
            case NAMED -> java.util.Arrays.fill(settled, first, first + length, true);
            case NO_ID -> {
              // a word like any other
            }
          }
        }
      }
    }
    return false;
  }

  private static boolean isSettled(boolean[] settled, int first, int length) {
    for (int at = first; at < first + length; at++) {
      if (settled[at]) {
        return true;
      }
    }
    return false;
  }

  private enum Found {
    NO_ID,
    NAMED,
    HIDDEN
  }

  private Found look(String id) {
    Found lot = look(Subject.lot(id));
    Found crop = look(Subject.crop(id));
    if (lot == Found.NAMED || crop == Found.NAMED) {
      return Found.NAMED;
    }
    return lot == Found.HIDDEN || crop == Found.HIDDEN ? Found.HIDDEN : Found.NO_ID;
  }

  private Found look(Subject subject) {
    if (standings.row(subject).isEmpty()) {
      return Found.NO_ID;
    }
    return sight.names(subject) ? Found.NAMED : Found.HIDDEN;
  }
}
