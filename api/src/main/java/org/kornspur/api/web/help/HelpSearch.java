package org.kornspur.api.web.help;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;

/**
 * Finds words in the manual. A section is found where each word stands in it, in its heading or in
 * the title of its page, in large or small letters, and as a part of a longer word too.
 */
public final class HelpSearch {
  private static final int MOST_HITS = 30;
  private static final int BEFORE = 60;
  private static final int SHOWN = 220;
  private static final int HEADING_COUNTS = 10;

  private HelpSearch() {}

  /**
   * A section that was found.
   *
   * @param page title of its page
   * @param heading its own heading; that of the page for what stands before the first part
   * @param pieces some words around the first that was found
   */
  public record Hit(String page, String heading, String href, List<Piece> pieces) {}

  /** A piece of a text; {@code found} where it is what was asked for. */
  public record Piece(String text, boolean found) {}

  private record Ranked(Hit hit, long rank) {}

  /** Sections that hold all words, the likeliest first. */
  static List<Hit> find(List<HelpText> manual, String query) {
    List<String> words =
        Arrays.stream(lower(query).strip().split("\\s+")).filter(word -> !word.isEmpty()).toList();
    if (words.isEmpty()) {
      return List.of();
    }
    List<Ranked> found = new ArrayList<>();
    for (HelpText page : manual) {
      for (HelpText.Section section : page.sections()) {
        String heading = lower(section.heading());
        String text = lower(section.text());
        String all = lower(page.title()) + " " + heading + " " + text;
        if (words.stream().allMatch(all::contains)
            && words.stream().anyMatch(word -> heading.contains(word) || text.contains(word))) {
          long rank =
              words.stream()
                  .mapToLong(word -> count(text, word) + HEADING_COUNTS * count(heading, word))
                  .sum();
          found.add(new Ranked(hit(page, section, words), rank));
        }
      }
    }
    return found.stream()
        .sorted(Comparator.comparingLong(Ranked::rank).reversed())
        .limit(MOST_HITS)
        .map(Ranked::hit)
        .toList();
  }

  private static Hit hit(HelpText page, HelpText.Section section, List<String> words) {
    String href =
        section.level() == 1 ? page.topic().href() : page.topic().href() + "#" + section.anchor();
    return new Hit(page.title(), section.heading(), href, pieces(section.text(), words));
  }

  private static List<Piece> pieces(String text, List<String> words) {
    Pattern any =
        Pattern.compile(
            words.stream().map(Pattern::quote).collect(Collectors.joining("|")),
            Pattern.CASE_INSENSITIVE | Pattern.UNICODE_CASE);
    Matcher first = any.matcher(text);
    int from = first.find() ? startOfWord(text, first.start() - BEFORE) : 0;
    int to = Math.min(text.length(), from + SHOWN);
    List<Piece> pieces = new ArrayList<>();
    if (from > 0) {
      pieces.add(new Piece("… ", false));
    }
    Matcher next = any.matcher(text).region(from, to);
    int written = from;
    while (next.find()) {
      if (next.start() > written) {
        pieces.add(new Piece(text.substring(written, next.start()), false));
      }
      pieces.add(new Piece(next.group(), true));
      written = next.end();
    }
    String rest = text.substring(written, to) + (to < text.length() ? " …" : "");
    if (!rest.isEmpty()) {
      pieces.add(new Piece(rest, false));
    }
    return pieces;
  }

  private static int startOfWord(String text, int at) {
    return at <= 0 ? 0 : text.indexOf(' ', at) + 1;
  }

  private static long count(String text, String word) {
    return Pattern.compile(word, Pattern.LITERAL).matcher(text).results().count();
  }

  private static String lower(String text) {
    return text.toLowerCase(Locale.ROOT);
  }
}
