package org.kornspur.api.text;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** The links within one text that is being written, which becomes plain text or HTML at its end. */
final class Links {

  /** Stands around the number of a link in a text that is not yet finished; no text has them. */
  private static final Pattern LINK = Pattern.compile("\uE000([0-9]+)\uE001");

  private static final Pattern LINK_MARK = Pattern.compile("[\uE000\uE001]");

  /**
   * A name with what is behind it.
   *
   * @param address page of it; empty where there is none
   * @param whole what the name stands for, as the whole of a long id
   */
  record Link(String label, Optional<String> address, String whole) {

    /** A name with nothing behind it. */
    static Link none(String label) {
      return new Link(label, Optional.empty(), label);
    }

    private String html() {
      String shown = escaped(label);
      return address
          .map(
              page ->
                  "<a href=\"%s\" title=\"%s\">%s</a>"
                      .formatted(escaped(page), escaped(whole), shown))
          .orElseGet(
              () ->
                  whole.equals(label)
                      ? shown
                      : "<span title=\"%s\">%s</span>".formatted(escaped(whole), shown));
    }
  }

  private final List<Link> all = new ArrayList<>();

  /** What stands for the link in the text until it is finished. */
  String mark(Link link) {
    all.add(link);
    return "\uE000" + (all.size() - 1) + "\uE001";
  }

  /** Recorded words, in which nothing may look like a link. */
  static String unmarked(String words) {
    return LINK_MARK.matcher(words).replaceAll("");
  }

  String plain(String text) {
    return finished(text, Link::label);
  }

  String html(String text) {
    return finished(escaped(text), Link::html);
  }

  private String finished(String text, Function<Link, String> form) {
    return LINK.matcher(text)
        .replaceAll(
            mark -> Matcher.quoteReplacement(form.apply(all.get(Integer.parseInt(mark.group(1))))));
  }

  private static String escaped(String text) {
    return text.replace("&", "&amp;")
        .replace("<", "&lt;")
        .replace(">", "&gt;")
        .replace("\"", "&quot;");
  }
}
