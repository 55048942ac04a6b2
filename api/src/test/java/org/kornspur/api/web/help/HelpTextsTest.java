package org.kornspur.api.web.help;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.Arrays;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.kornspur.api.text.Language;
import org.kornspur.api.web.NavigationItem;
import org.kornspur.api.web.notifications.NotificationsPage;

/** The manual is whole in each language, and every link in it leads somewhere. */
class HelpTextsTest {
  private static final HelpTexts MANUAL = new HelpTexts();
  private static final Pattern LINK = Pattern.compile(" href=\"([^\"]*)\"");
  private static final Pattern PICTURE = Pattern.compile("<img src=\"([^\"]*)\" alt=\"([^\"]*)\"");

  /** Headings have the anchors of the English text, so each language must have the same ones. */
  @ParameterizedTest
  @EnumSource
  void everyTopicHasTheSameHeadingsInEveryLanguage(HelpTopic topic) {
    HelpText english = MANUAL.of(topic, Language.ENGLISH);
    assertThat(english.topic()).isEqualTo(topic);
    assertThat(english.parts()).hasSizeGreaterThan(1);
    for (Language language : Language.values()) {
      HelpText text = MANUAL.of(topic, language);
      assertThat(shape(text)).as("%s in %s", topic, language).isEqualTo(shape(english));
      assertThat(text.sections().get(0).level()).isEqualTo(1);
      assertThat(text.sections()).filteredOn(section -> section.level() == 1).hasSize(1);
      assertThat(text.summary()).isNotBlank();
      assertThat(rowsAndBlocks(text))
          .as("%s in %s", topic, language)
          .isEqualTo(rowsAndBlocks(english));
    }
    assertThat(MANUAL.of(topic, Language.GERMAN).html()).isNotEqualTo(english.html());
  }

  private static List<String> shape(HelpText text) {
    return text.sections().stream()
        .map(section -> section.level() + " " + section.anchor())
        .toList();
  }

  /** How many rows, items, blocks and pictures it has: nothing is left out in one language. */
  private static List<Long> rowsAndBlocks(HelpText text) {
    return Stream.of("<tr>", "<li>", "<p>", "<pre", "<img")
        .map(tag -> Pattern.compile(tag).matcher(text.html()).results().count())
        .toList();
  }

  @ParameterizedTest
  @EnumSource
  void everyLinkLeadsSomewhere(Language language) {
    Set<String> pages = new TreeSet<>(Set.of(HelpTopic.ROOT, HelpTopic.ROOT + "/rules"));
    for (HelpText text : MANUAL.in(language)) {
      pages.add(text.topic().href());
      text.sections().stream()
          .filter(section -> section.level() > 1)
          .forEach(section -> pages.add(text.topic().href() + "#" + section.anchor()));
    }
    int links = 0;
    for (HelpText text : MANUAL.in(language)) {
      for (String link : all(LINK, text.html())) {
        links++;
        assertThat(pages.contains(link) || leadsToAPageOfTheProgram(link))
            .as("%s in %s, %s", link, text.topic(), language)
            .isTrue();
      }
    }
    assertThat(links).isGreaterThan(30);
  }

  private static boolean leadsToAPageOfTheProgram(String link) {
    return Stream.concat(
            Stream.of(NotificationsPage.ROOT),
            Arrays.stream(NavigationItem.values()).map(NavigationItem::href))
        .filter(href -> !href.isEmpty() && !href.equals(HelpTopic.ROOT))
        .anyMatch(href -> link.matches(Pattern.quote(href) + "([/?].*)?"));
  }

  @ParameterizedTest
  @EnumSource
  void everyPictureIsThereAndIsDescribed(Language language) {
    Set<String> shown = new TreeSet<>();
    for (HelpText text : MANUAL.in(language)) {
      PICTURE
          .matcher(text.html())
          .results()
          .forEach(
              picture -> {
                shown.add(picture.group(1));
                assertThat(picture.group(2)).as(picture.group(1)).isNotBlank();
              });
    }
    assertThat(shown)
        .hasSizeGreaterThan(5)
        .allSatisfy(
            path -> {
              assertThat(path).startsWith("/assets/help/" + language.tag() + "/");
              assertThat(HelpTextsTest.class.getResource("/META-INF/resources" + path))
                  .as(path)
                  .isNotNull();
            });
  }

  @Test
  void rawHtmlAndScriptsAreShownAsText() {
    String markdown =
        "# Title\n\n## Part <img src=x onerror=alert(1)>\n\n<script>alert(1)</script>\n\n"
            + "[a link](javascript:alert(1)) and [a page](roles.md#people)\n";
    HelpText text = HelpMarkdown.read(HelpTopic.START, markdown, HelpMarkdown.anchors(markdown));
    assertThat(text.html())
        .contains("&lt;script&gt;")
        .contains("href=\"/help/roles#people\"")
        .doesNotContain("<script", "<img", "javascript:");
  }

  @Test
  void aLanguageThatLacksAHeadingIsRefused() {
    assertThatThrownBy(
            () -> HelpMarkdown.read(HelpTopic.START, "# One\n\n## Two\n", List.of("one")))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("start has 2 headings where 1");
  }

  @Test
  void aSearchFindsTheSectionThatHoldsAllWords() {
    assertThat(hits(Language.ENGLISH, "roguing").get(0).href()).isEqualTo("/help/gates#roguing");
    assertThat(hits(Language.GERMAN, "bereinigung").get(0).href()).isEqualTo("/help/gates#roguing");
    assertThat(hits(Language.ENGLISH, "Third  TEST germination"))
        .extracting(HelpSearch.Hit::href)
        .contains("/help/tests#germination");
    assertThat(hits(Language.GERMAN, "kornspur.oidc.roles-claim"))
        .extracting(HelpSearch.Hit::href)
        .containsExactly("/help/settings#log-in-and-people");
    assertThat(hits(Language.ENGLISH, "ergot")).hasSizeGreaterThan(3);
    assertThat(hits(Language.ENGLISH, "ergot nonsense-word")).isEmpty();
    assertThat(hits(Language.ENGLISH, " ")).isEmpty();
  }

  /** Whoever asks may write anything; nothing of it is taken for a pattern. */
  @Test
  void aHitShowsTheWordsWhereTheyStand() {
    for (String query : List.of("ergot", ".*", "(", "<script>", "\\E", "75 %", "é")) {
      for (HelpSearch.Hit hit : hits(Language.ENGLISH, query)) {
        String shown =
            hit.pieces().stream().map(HelpSearch.Piece::text).collect(Collectors.joining());
        assertThat(shown.length()).isLessThan(300);
        assertThat(hit.pieces())
            .filteredOn(HelpSearch.Piece::found)
            .allMatch(piece -> piece.text().equalsIgnoreCase(query));
      }
    }
    assertThat(hits(Language.ENGLISH, "darnel").get(0).pieces()).anyMatch(HelpSearch.Piece::found);
  }

  private static List<HelpSearch.Hit> hits(Language language, String query) {
    return HelpSearch.find(MANUAL.in(language), query);
  }

  static List<String> all(Pattern pattern, String text) {
    return pattern.matcher(text).results().map((MatchResult found) -> found.group(1)).toList();
  }
}
