package org.kornspur.api.security.visibility;

import java.net.URLDecoder;
import java.nio.charset.StandardCharsets;
import java.util.BitSet;
import java.util.HashMap;
import java.util.Map;
import java.util.Set;
import java.util.regex.MatchResult;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.kornspur.api.readmodel.StandingIndex;
import org.kornspur.api.text.Addresses;
import org.kornspur.ingest.contract.Subject;

/**
 * Takes the ids of lots and crops that a caller may not name out of texts: sentences of verdicts,
 * ids of facts that hold the id of what they are about, addresses. What a view leaves out is left
 * out there; this holds what slips through in words.
 *
 * <p>For one answer: what was looked up is kept.
 */
final class IdRedactor {
  static final String WITHHELD = "(withheld)";

  /** What an id can be made of, and more: ids stand within ids. */
  private static final Pattern WORD = Pattern.compile("[A-Za-z0-9][A-Za-z0-9._:/-]*");

  /** What percent signs encode, with what stands around it. */
  private static final Pattern ENCODED =
      Pattern.compile("[A-Za-z0-9._:/-]*(?:%[0-9A-Fa-f]{2}[A-Za-z0-9._:/-]*)+");

  private static final String DAY = "[0-9]{4}-(?:0[1-9]|1[0-2])(?:-(?:0[1-9]|[12][0-9]|3[01]))?";
  private static final String CLOCK = "[0-9]{1,2}:[0-9]{2}(?::[0-9]{2}(?:\\.[0-9]+)?)?Z?";
  private static final String NUMBER = "[0-9]+(?:\\.[0-9]+)?";

  /** A number or a time; a piece of one is no id, though somebody may have named a lot "25". */
  private static final Pattern NUMBER_OR_TIME =
      Pattern.compile("(" + DAY + "(?:T" + CLOCK + ")?|" + CLOCK + "|" + NUMBER + ")[._:/-]*");

  /** What stands before the id in addresses of this program; nobody's id is looked for in it. */
  private static final Pattern FRONT_OF_ADDRESS =
      Pattern.compile("(?:https?://[^/]+/)?(?:" + Addresses.ROOT.substring(1) + "/)?");

  private static final Pattern PART = Pattern.compile("[A-Za-z0-9]+");
  private static final Pattern NO_MARKUP = Pattern.compile("[A-Z0-9]");
  private static final int MOST_PARTS = 40;

  private final StandingIndex standings;
  private final Visibility visibility;
  private final Set<String> saidByCaller;
  private final Set<String> guessed;
  private final Map<String, Boolean> hidden = new HashMap<>();

  /**
   * @param saidByCaller whole ids that the caller wrote into the request: to hear them again tells
   *     nothing
   */
  IdRedactor(StandingIndex standings, Visibility visibility, Set<String> saidByCaller) {
    this(standings, visibility, saidByCaller, Set.of());
  }

  /**
   * @param ignored texts in which the caller may have guessed ids: their words are taken out
   *     whether there is such an id or not, unless they name what may be named. Words in small
   *     letters alone are left, for markup consists of them
   */
  IdRedactor(
      StandingIndex standings,
      Visibility visibility,
      Set<String> saidByCaller,
      Set<String> ignored) {
    this.standings = standings;
    this.visibility = visibility;
    this.saidByCaller = saidByCaller;
    this.guessed =
        ignored.stream()
            .flatMap(text -> WORD.matcher(text).results())
            .map(MatchResult::group)
            .filter(word -> NO_MARKUP.matcher(word).find())
            .collect(Collectors.toUnmodifiableSet());
  }

  /** The text without them. */
  String redacted(String text) {
    return words(
        ENCODED
            .matcher(text)
            .replaceAll(
                address -> {
                  String decoded = decoded(address.group());
                  return decoded.equals(words(decoded))
                      ? Matcher.quoteReplacement(address.group())
                      : WITHHELD;
                }));
  }

  private String words(String text) {
    Matcher words = WORD.matcher(text);
    return words.replaceAll(
        word ->
            hidden.computeIfAbsent(word.group(), this::holdsHidden)
                ? WITHHELD
                : Matcher.quoteReplacement(word.group()));
  }

  /** An address within an address is encoded twice. */
  private static String decoded(String text) {
    String decoded = text;
    for (int time = 0; time < 3 && decoded.indexOf('%') >= 0; time++) {
      try {
        decoded = URLDecoder.decode(decoded, StandardCharsets.UTF_8);
      } catch (IllegalArgumentException noAddress) {
        return decoded;
      }
    }
    return decoded;
  }

  private boolean holdsHidden(String whole) {
    Matcher numberOrTime = NUMBER_OR_TIME.matcher(whole);
    if (numberOrTime.matches()) {
      return look(numberOrTime.group(1)) == Found.HIDDEN;
    }
    Matcher front = FRONT_OF_ADDRESS.matcher(whole);
    return hasHiddenRun(front.lookingAt() ? whole.substring(front.end()) : whole);
  }

  /** Looks at the longest runs of parts first: an own id may hold the id of another's lot. */
  private boolean hasHiddenRun(String word) {
    MatchResult[] parts =
        PART.matcher(word).results().limit(MOST_PARTS).toArray(MatchResult[]::new);
    BitSet settled = new BitSet(parts.length);
    for (int length = parts.length; length > 0; length--) {
      for (int first = 0; first + length <= parts.length; first++) {
        int taken = settled.nextSetBit(first);
        if (taken < 0 || taken >= first + length) {
          String run = word.substring(parts[first].start(), parts[first + length - 1].end());
          switch (look(run)) {
            case HIDDEN -> {
              return true;
            }
            case NAMED -> settled.set(first, first + length);
            case NO_ID -> {
              // a word like any other
            }
          }
        }
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
    if (saidByCaller.contains(id)) {
      return Found.NAMED;
    }
    Found lot = look(Subject.lot(id));
    Found crop = look(Subject.crop(id));
    if (lot == Found.NAMED || crop == Found.NAMED) {
      return Found.NAMED;
    }
    return lot == Found.HIDDEN || crop == Found.HIDDEN || guessed.contains(id)
        ? Found.HIDDEN
        : Found.NO_ID;
  }

  private Found look(Subject subject) {
    if (standings.row(subject).isEmpty()) {
      return Found.NO_ID;
    }
    return visibility.names(subject) ? Found.NAMED : Found.HIDDEN;
  }
}
