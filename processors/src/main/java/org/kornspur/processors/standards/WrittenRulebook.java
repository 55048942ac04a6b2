package org.kornspur.processors.standards;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.function.Predicate;
import java.util.stream.Stream;
import org.kornspur.contract.Category;
import org.kornspur.contract.CropRole;
import org.kornspur.processors.statistics.SamplingIntensity;

/**
 * A rulebook as read from its file. What it does not say itself comes from the book that it
 * tightens, and failing that from common practice.
 *
 * @param lines its own limits
 * @param nothingAsked where it asks for nothing itself
 * @param judgedAs categories to which it applies the lines of another
 * @param ownPrimarySamples its own table of primary samples
 * @param base the book that it tightens
 * @param practice common practice
 */
record WrittenRulebook(
    String id,
    String title,
    String edition,
    List<RulebookLine> lines,
    List<NothingAskedLine> nothingAsked,
    List<CategorySubstitution> judgedAs,
    Optional<SamplingIntensity> ownPrimarySamples,
    Optional<WrittenRulebook> base,
    Optional<WrittenRulebook> practice)
    implements Rulebook {

  /** Finds what one category is asked in the lines of one book alone. */
  private interface Lines {
    RulebookAnswer of(WrittenRulebook book, Category category);
  }

  @Override
  public Optional<Rulebook> tightens() {
    return base.map(Rulebook.class::cast);
  }

  @Override
  public Optional<SamplingIntensity> primarySamples() {
    return ownPrimarySamples
        .or(() -> base.flatMap(WrittenRulebook::primarySamples))
        .or(() -> practice.flatMap(WrittenRulebook::primarySamples));
  }

  @Override
  public Optional<Limit> forCrop(
      Quantity quantity, Category category, CropRole role, LocalDate on) {
    return answerForCrop(quantity, category, role, on).limit();
  }

  @Override
  public Optional<Limit> forLot(Quantity quantity, Category category, Rye seed, LocalDate on) {
    return answerForLot(quantity, category, seed, on).limit();
  }

  @Override
  public RulebookAnswer answerForCrop(
      Quantity quantity, Category category, CropRole role, LocalDate on) {
    return answer(
        category,
        on,
        (book, of) ->
            book.own(
                line -> line.holdsForCrop(quantity, of, role, on),
                line -> line.holdsForCrop(quantity, of, role, on)));
  }

  @Override
  public RulebookAnswer answerForLot(Quantity quantity, Category category, Rye seed, LocalDate on) {
    return answer(
        category,
        on,
        (book, of) ->
            book.own(
                line -> line.holdsForLot(quantity, of, seed, on),
                line -> line.holdsForLot(quantity, of, seed, on)));
  }

  private RulebookAnswer answer(Category category, LocalDate on, Lines lines) {
    RulebookAnswer inText = inText(category, on, lines);
    return inText.isSilent()
        ? practice.map(book -> lines.of(book, category)).orElse(inText)
        : inText;
  }

  /** What the texts say: this one, then the one that it tightens; common practice is none. */
  private RulebookAnswer inText(Category category, LocalDate on, Lines lines) {
    RulebookAnswer own = lines.of(this, category);
    if (!own.isSilent()) {
      return own;
    }
    Optional<CategorySubstitution> as = ownJudgedAs(category, on);
    if (as.isPresent()) {
      RulebookAnswer asOther = through(as.get(), inText(as.get().as(), on, lines));
      if (!asOther.isSilent()) {
        return asOther;
      }
    }
    return base.map(book -> book.inText(category, on, lines)).orElse(own);
  }

  /** What was not read is not verified, though the limit itself was. */
  private static RulebookAnswer through(CategorySubstitution as, RulebookAnswer answer) {
    if (as.source().verified()) {
      return answer;
    }
    return answer
        .limit()
        .map(limit -> (RulebookAnswer) new RulebookAnswer.Limited(limit.unverified()))
        .or(() -> answer.nothing().map(nothing -> new RulebookAnswer.Nothing(nothing.unverified())))
        .orElse(answer);
  }

  @Override
  public Optional<CategorySubstitution> judgedAs(Category category, LocalDate on) {
    return ownJudgedAs(category, on).or(() -> base.flatMap(book -> book.judgedAs(category, on)));
  }

  private Optional<CategorySubstitution> ownJudgedAs(Category category, LocalDate on) {
    return judgedAs.stream().filter(as -> as.holds(category, on)).findFirst();
  }

  private RulebookAnswer own(
      Predicate<RulebookLine> limiting, Predicate<NothingAskedLine> askingNothing) {
    return lines.stream()
        .filter(limiting)
        .map(line -> (RulebookAnswer) new RulebookAnswer.Limited(line.limit()))
        .findFirst()
        .or(
            () ->
                nothingAsked.stream()
                    .filter(askingNothing)
                    .map(line -> (RulebookAnswer) new RulebookAnswer.Nothing(line.nothing()))
                    .findFirst())
        .orElseGet(RulebookAnswer.Silent::new);
  }

  /** The books that this one falls back on, nearest first. */
  Stream<Rulebook> inheritedFrom() {
    return Stream.concat(base.stream(), practice.stream());
  }
}
