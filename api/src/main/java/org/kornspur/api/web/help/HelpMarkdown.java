package org.kornspur.api.web.help;

import java.util.ArrayList;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.commonmark.Extension;
import org.commonmark.ext.gfm.tables.TablesExtension;
import org.commonmark.ext.heading.anchor.IdGenerator;
import org.commonmark.node.AbstractVisitor;
import org.commonmark.node.Code;
import org.commonmark.node.CustomNode;
import org.commonmark.node.FencedCodeBlock;
import org.commonmark.node.Heading;
import org.commonmark.node.Link;
import org.commonmark.node.Node;
import org.commonmark.node.Paragraph;
import org.commonmark.node.SoftLineBreak;
import org.commonmark.node.Text;
import org.commonmark.parser.Parser;
import org.commonmark.renderer.html.AttributeProvider;
import org.commonmark.renderer.html.HtmlRenderer;

/**
 * Makes a page of the manual from Markdown (CommonMark with tables). Raw HTML in it is shown as
 * text. A link to another file of the manual, as {@code roles.md#people}, leads to its page.
 */
final class HelpMarkdown {
  private static final List<Extension> EXTENSIONS = List.of(TablesExtension.create());
  private static final Parser PARSER = Parser.builder().extensions(EXTENSIONS).build();
  private static final Pattern OTHER_FILE = Pattern.compile("([a-z]+)\\.md(#.*)?");

  private HelpMarkdown() {}

  /** The anchors of all headings, in order. */
  static List<String> anchors(String markdown) {
    IdGenerator ids = IdGenerator.builder().build();
    return headings(PARSER.parse(markdown)).stream()
        .map(heading -> ids.generateId(plain(heading)))
        .toList();
  }

  /**
   * The page; its title is the first heading.
   *
   * @param anchors one for each heading, in order
   * @throws IllegalArgumentException if there are more or fewer headings
   */
  static HelpText read(HelpTopic topic, String markdown, List<String> anchors) {
    Node document = PARSER.parse(markdown);
    List<Heading> headings = headings(document);
    if (headings.size() != anchors.size()) {
      throw new IllegalArgumentException(
          "%s has %d headings where %d are expected"
              .formatted(topic.slug(), headings.size(), anchors.size()));
    }
    Map<Node, String> anchorOf = new IdentityHashMap<>();
    for (int i = 0; i < headings.size(); i++) {
      anchorOf.put(headings.get(i), anchors.get(i));
    }
    document.accept(new LinksToPages());
    List<HelpText.Section> sections = sections(document, anchorOf);
    headings.get(0).unlink();
    return new HelpText(
        topic, sections.get(0).heading(), summary(document), html(document, anchorOf), sections);
  }

  private static List<Heading> headings(Node document) {
    List<Heading> found = new ArrayList<>();
    for (Node block = document.getFirstChild(); block != null; block = block.getNext()) {
      if (block instanceof Heading heading) {
        found.add(heading);
      }
    }
    return found;
  }

  private static String summary(Node document) {
    Node block = document.getFirstChild();
    while (block != null && !(block instanceof Paragraph)) {
      block = block.getNext();
    }
    return block == null ? "" : plain(block);
  }

  private static List<HelpText.Section> sections(Node document, Map<Node, String> anchorOf) {
    List<HelpText.Section> sections = new ArrayList<>();
    Heading under = null;
    StringBuilder text = new StringBuilder();
    for (Node block = document.getFirstChild(); block != null; block = block.getNext()) {
      if (block instanceof Heading heading) {
        addSection(sections, under, text, anchorOf);
        under = heading;
        text.setLength(0);
      } else {
        text.append(plain(block)).append(' ');
      }
    }
    addSection(sections, under, text, anchorOf);
    return List.copyOf(sections);
  }

  private static void addSection(
      List<HelpText.Section> sections,
      Heading heading,
      StringBuilder text,
      Map<Node, String> anchorOf) {
    if (heading != null) {
      sections.add(
          new HelpText.Section(
              heading.getLevel(),
              anchorOf.get(heading),
              plain(heading),
              text.toString().replaceAll("\\s+", " ").strip()));
    }
  }

  private static String html(Node document, Map<Node, String> anchorOf) {
    AttributeProvider attributes =
        (node, tagName, given) -> {
          if (node instanceof Heading) {
            given.put("id", anchorOf.get(node));
          } else if (tagName.equals("pre")) {
            given.put("tabindex", "0"); // long lines are scrolled by keyboard too
          }
        };
    return HtmlRenderer.builder()
        .extensions(EXTENSIONS)
        .escapeHtml(true)
        .sanitizeUrls(true)
        .attributeProviderFactory(context -> attributes)
        .build()
        .render(document);
  }

  private static String plain(Node node) {
    PlainText text = new PlainText();
    node.accept(text);
    return text.written.toString().replaceAll("\\s+", " ").strip();
  }

  private static final class LinksToPages extends AbstractVisitor {
    @Override
    public void visit(Link link) {
      Matcher file = OTHER_FILE.matcher(link.getDestination());
      if (file.matches()) {
        link.setDestination(
            HelpTopic.ROOT + "/" + file.group(1) + (file.group(2) == null ? "" : file.group(2)));
      }
      visitChildren(link);
    }
  }

  /** What a person reads, without marks. */
  private static final class PlainText extends AbstractVisitor {
    private final StringBuilder written = new StringBuilder();

    @Override
    public void visit(Text text) {
      written.append(text.getLiteral());
    }

    @Override
    public void visit(Code code) {
      written.append(code.getLiteral());
    }

    @Override
    public void visit(FencedCodeBlock block) {
      written.append(block.getLiteral()).append(' ');
    }

    @Override
    public void visit(SoftLineBreak lineBreak) {
      written.append(' ');
    }

    @Override
    public void visit(Paragraph paragraph) {
      visitChildren(paragraph);
      written.append(' ');
    }

    @Override
    public void visit(CustomNode cell) {
      visitChildren(cell);
      written.append(' ');
    }
  }
}
