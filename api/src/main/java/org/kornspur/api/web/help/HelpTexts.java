package org.kornspur.api.web.help;

import jakarta.enterprise.context.ApplicationScoped;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import org.kornspur.api.text.Language;

/** The manual in every language, read once. Headings have the anchors of the English text. */
@ApplicationScoped
public class HelpTexts {
  private final Map<Language, List<HelpText>> texts = new EnumMap<>(Language.class);

  HelpTexts() {
    for (Language language : Language.values()) {
      texts.put(
          language,
          Arrays.stream(HelpTopic.values())
              .map(
                  topic ->
                      HelpMarkdown.read(
                          topic,
                          markdown(language, topic),
                          HelpMarkdown.anchors(markdown(Language.ENGLISH, topic))))
              .toList());
    }
  }

  /** All topics, in their order. */
  public List<HelpText> in(Language language) {
    return texts.get(language);
  }

  /** One topic. */
  public HelpText of(HelpTopic topic, Language language) {
    return texts.get(language).get(topic.ordinal());
  }

  /** The Markdown of a topic. */
  static String markdown(Language language, HelpTopic topic) {
    String path = "help/" + language.tag() + "/" + topic.slug() + ".md";
    try (InputStream in = HelpTexts.class.getClassLoader().getResourceAsStream(path)) {
      if (in == null) {
        throw new IllegalStateException(path + " is missing");
      }
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException(path, e);
    }
  }
}
