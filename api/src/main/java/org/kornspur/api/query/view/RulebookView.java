package org.kornspur.api.query.view;

import java.time.LocalDate;
import java.util.Collection;
import java.util.List;
import org.eclipse.microprofile.openapi.annotations.media.Schema;
import org.kornspur.api.text.Addresses;
import org.kornspur.api.text.ReaderWords;
import org.kornspur.processors.standards.Limit;
import org.kornspur.processors.standards.NothingAskedLine;
import org.kornspur.processors.standards.Rulebook;
import org.kornspur.processors.standards.RulebookLine;

@Schema(
    description = "A rulebook with every limit. What it inherits stands in the book it tightens")
public record RulebookView(
    @Schema(examples = "EU") String id,
    String title,
    String edition,
    @Schema(nullable = true, description = "Id of the book that it tightens; null where none")
        String tightens,
    @Schema(description = "Limits that could not be read in the text itself") long unverified,
    List<Line> limits,
    @Schema(description = "What it asks nothing for; where it has no line, evidence is owed")
        List<NothingAsked> nothingAsked) {

  @Schema(name = "NothingAskedLine", description = "What the book asks nothing for, and its source")
  public record NothingAsked(
      List<String> quantities,
      List<String> categories,
      @Schema(description = "Roles of a crop; of no meaning for seed") List<String> roles,
      @Schema(description = "Which rye it speaks of") List<String> rye,
      @Schema(description = "Title of the text") String text,
      String section,
      LocalDate inForceFrom,
      @Schema(nullable = true, description = "Null while it holds") LocalDate inForceTo,
      boolean verified,
      String note) {

    static NothingAsked of(NothingAskedLine line, ReaderWords words) {
      return new NothingAsked(
          names(line.quantities()),
          names(line.categories()),
          names(line.roles()),
          names(line.rye()),
          words.bundled(line.nothing().text()),
          words.bundled(line.nothing().section()),
          line.nothing().inForceFrom(),
          line.nothing().inForceTo().orElse(null),
          line.nothing().verified(),
          words.bundled(line.nothing().note()));
    }
  }

  @Schema(description = "One limit with what it holds for and where it stands written")
  public record Line(
      String quantity,
      String sense,
      double value,
      String unit,
      @Schema(description = "The limit as the text has it") String wording,
      @Schema(description = "Whether it is a limit for a crop; else for a lot") boolean ofCrop,
      List<String> categories,
      @Schema(description = "Roles of a crop; empty for seed") List<String> roles,
      @Schema(description = "Which rye it speaks of") List<String> rye,
      @Schema(description = "Generation in the words of the text") String generation,
      @Schema(description = "Title of the text") String text,
      String section,
      LocalDate inForceFrom,
      @Schema(nullable = true, description = "Null while it holds") LocalDate inForceTo,
      boolean verified,
      String note) {

    static Line of(RulebookLine line, ReaderWords words) {
      Limit limit = line.limit();
      boolean ofCrop = limit.quantity().ofCrop();
      return new Line(
          limit.quantity().name(),
          limit.sense().name(),
          limit.value(),
          limit.unit(),
          words.limit(limit),
          ofCrop,
          names(line.categories()),
          ofCrop ? names(line.roles()) : List.of(),
          names(line.rye()),
          line.generation(),
          words.bundled(limit.text()),
          words.bundled(limit.section()),
          limit.inForceFrom(),
          limit.inForceTo().orElse(null),
          limit.verified(),
          words.bundled(limit.note()));
    }
  }

  private static List<String> names(Collection<? extends Enum<?>> values) {
    return values.stream().map(Enum::name).sorted().toList();
  }

  @Schema(description = "A rulebook in a list")
  public record Summary(
      String id,
      String title,
      String edition,
      @Schema(nullable = true) String tightens,
      int limits,
      long unverified,
      String href) {

    public static Summary of(Rulebook book, ReaderWords words) {
      return new Summary(
          book.id(),
          words.bundled(book.title()),
          book.edition(),
          book.tightens().map(Rulebook::id).orElse(null),
          book.lines().size(),
          countUnverified(book),
          Addresses.ofRulebook(book.id()));
    }
  }

  public static RulebookView of(Rulebook book, ReaderWords words) {
    return new RulebookView(
        book.id(),
        words.bundled(book.title()),
        book.edition(),
        book.tightens().map(Rulebook::id).orElse(null),
        countUnverified(book),
        book.lines().stream().map(line -> Line.of(line, words)).toList(),
        book.nothingAsked().stream().map(line -> NothingAsked.of(line, words)).toList());
  }

  private static long countUnverified(Rulebook book) {
    return book.lines().stream().filter(line -> !line.limit().verified()).count();
  }
}
