package org.kornspur.api.web.help;

import java.util.List;

/**
 * One topic in one language.
 *
 * @param title heading of the page
 * @param summary its first paragraph, without marks
 * @param html the page below its title, made from Markdown; raw HTML in that is text here
 * @param sections what stands under each heading, in order; the first is the title's
 */
public record HelpText(
    HelpTopic topic, String title, String summary, String html, List<Section> sections) {

  /**
   * A heading and what stands under it.
   *
   * @param level 1 for the title of the page
   * @param anchor the same in every language
   * @param text without marks
   */
  public record Section(int level, String anchor, String heading, String text) {}

  /** Headings of the page's parts, for a table of contents. */
  public List<Section> parts() {
    return sections.stream().filter(section -> section.level() == 2).toList();
  }
}
