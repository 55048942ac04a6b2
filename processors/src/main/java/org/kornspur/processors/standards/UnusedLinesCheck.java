package org.kornspur.processors.standards;

import java.time.LocalDate;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
import org.kornspur.contract.Category;
import org.kornspur.contract.CropRole;

/**
 * Refuses a rulebook with a line that can never apply, to any category, role or kind of rye on any
 * day: whoever wrote it would believe that it holds.
 */
record UnusedLinesCheck(String file, WrittenRulebook book) {
  private static final EnumSet<Quantity> COUNTED_BY_SAMPLE =
      EnumSet.of(
          Quantity.OTHER_SEEDS_TOTAL,
          Quantity.OTHER_CEREAL_SEEDS,
          Quantity.OTHER_PLANT_SEEDS,
          Quantity.RAPHANUS_AND_AGROSTEMMA_SEEDS,
          Quantity.WILD_OAT_SEEDS,
          Quantity.LOLIUM_TEMULENTUM_SEEDS,
          Quantity.ERGOT_BODIES);

  private static final EnumSet<Quantity> COUNTED_IN_POST_CONTROL =
      EnumSet.of(
          Quantity.POST_CONTROL_OFF_TYPES,
          Quantity.POST_CONTROL_SHEDDING,
          Quantity.POST_CONTROL_NON_HYBRIDS);

  static void check(String file, WrittenRulebook book) {
    UnusedLinesCheck check = new UnusedLinesCheck(file, book);
    for (int at = 0; at < book.lines().size(); at++) {
      check.limit("limits[%d]".formatted(at), book.lines().get(at));
    }
    for (int at = 0; at < book.nothingAsked().size(); at++) {
      check.nothingAsked("nothingAsked[%d]".formatted(at), book.nothingAsked().get(at));
    }
    for (int at = 0; at < book.judgedAs().size(); at++) {
      check.judgedAs("judgedAs[%d]".formatted(at), book.judgedAs().get(at));
    }
  }

  private void limit(String place, RulebookLine line) {
    Quantity quantity = line.limit().quantity();
    Optional<Limit> asWritten = Optional.of(line.limit());
    boolean read =
        (!quantity.ofCrop() || line.rye().contains(Rye.HYBRID))
            && answers(quantity, line.categories(), line.roles(), line.rye())
                .anyMatch(
                    book -> book.limit(quantity).equals(asWritten) && isBeside(quantity, book));
    if (!read) {
      throw refused(place, quantity, line.categories());
    }
  }

  private void nothingAsked(String place, NothingAskedLine line) {
    Optional<NothingAsked> asWritten = Optional.of(line.nothing());
    for (Quantity quantity : line.quantities()) {
      boolean read =
          answers(quantity, line.categories(), line.roles(), line.rye())
              .anyMatch(book -> book.to(quantity).nothing().equals(asWritten));
      if (!read || !isAskedFor(quantity)) {
        throw refused(place, quantity, line.categories());
      }
    }
  }

  private void judgedAs(String place, CategorySubstitution as) {
    boolean leadsOn = book.judgedAs().stream().anyMatch(next -> next.category() == as.as());
    if (leadsOn) {
      throw new RulebookRefused(
          "%s: %s: field as: %s is itself judged as another category; name that one"
              .formatted(file, place, as.as()));
    }
  }

  /** What the book answers for one crop or lot on one day. */
  private interface Answers {
    RulebookAnswer to(Quantity quantity);

    default Optional<Limit> limit(Quantity quantity) {
      return to(quantity).limit();
    }
  }

  /** The answers for every crop or lot that a line holds for, on every day that matters. */
  private Stream<Answers> answers(
      Quantity quantity, Set<Category> categories, Set<CropRole> roles, Set<Rye> rye) {
    return days()
        .flatMap(
            on ->
                quantity.ofCrop()
                    ? ofCrops(quantity, categories, roles, on)
                    : ofLots(categories, rye, on));
  }

  private Stream<Answers> ofCrops(
      Quantity quantity, Set<Category> categories, Set<CropRole> roles, LocalDate on) {
    return roles.stream()
        .filter(role -> isReadOf(quantity, role))
        .flatMap(
            role ->
                categories.stream()
                    .filter(CropCategories.of(role)::contains)
                    .map(category -> asked -> book.answerForCrop(asked, category, role, on)));
  }

  private Stream<Answers> ofLots(Set<Category> categories, Set<Rye> rye, LocalDate on) {
    return categories.stream()
        .flatMap(
            category ->
                rye.stream().map(seed -> asked -> book.answerForLot(asked, category, seed, on)));
  }

  /** Days on which an answer of the book can change. */
  private Stream<LocalDate> days() {
    return Stream.concat(
            book.lines().stream().map(line -> line.limit().inForceFrom()),
            book.nothingAsked().stream().map(line -> line.nothing().inForceFrom()))
        .distinct();
  }

  private static boolean isReadOf(Quantity quantity, CropRole role) {
    return switch (quantity) {
      case SHEDDING_FEMALES,
          SHEDDING_FEMALES_ALL_VISITS,
          FEMALE_STERILITY,
          FLOWERING_PLANTS,
          EXAMINED_PLANTS,
          BAGGED_EARS ->
          role == CropRole.STERILE_FEMALE || role == CropRole.F1_MIXTURE;
      case POLLEN_PARENT_INSPECTIONS -> role == CropRole.STERILE_FEMALE;
      default -> true;
    };
  }

  /** Whether the limits are there without which nobody asks for this one. */
  private static boolean isBeside(Quantity quantity, Answers book) {
    return switch (quantity) {
      case ISOLATION_DISTANCE_SHIELDED, ISOLATION_DISTANCE_FLOWERING_APART ->
          book.limit(Quantity.ISOLATION_DISTANCE).isPresent();
      case SAME_GROUND -> book.limit(Quantity.YEARS_WITHOUT_RYE).isPresent();
      case POLLEN_PARENT_INSPECTIONS -> book.limit(Quantity.FIELD_INSPECTIONS).isPresent();
      case POST_CONTROL_NON_HYBRIDS_STATED ->
          book.limit(Quantity.POST_CONTROL_NON_HYBRIDS).isPresent();
      case LARGE_SOURCE_AREA ->
          book.limit(Quantity.ISOLATION_DISTANCE).isPresent()
              && book.limit(Quantity.ISOLATION_DISTANCE_LARGE_SOURCE).isPresent();
      case ISOLATION_DISTANCE_LARGE_SOURCE ->
          book.limit(Quantity.ISOLATION_DISTANCE).isPresent()
              && book.limit(Quantity.LARGE_SOURCE_AREA).isPresent();
      case GERMINATION_IF_STATED -> book.limit(Quantity.GERMINATION).isPresent();
      case LOT_MASS_EXCESS -> book.limit(Quantity.LOT_MASS).isPresent();
      case PURITY_SAMPLE_MASS -> book.limit(Quantity.ANALYTICAL_PURITY).isPresent();
      case GERMINATION_LABEL_ACCEPTED -> book.limit(Quantity.GERMINATION_IF_STATED).isPresent();
      case COUNT_SAMPLE_MASS -> any(COUNTED_BY_SAMPLE, book);
      case POST_CONTROL_PRODUCER_RISK -> any(COUNTED_IN_POST_CONTROL, book);
      case BLEND_SHARE -> false; // the breeder's, never a rulebook's
      default -> true;
    };
  }

  /** Whether evidence is asked for by this quantity itself. */
  private static boolean isAskedFor(Quantity quantity) {
    return switch (quantity) {
      case ISOLATION_DISTANCE_SHIELDED,
          LARGE_SOURCE_AREA,
          ISOLATION_DISTANCE_LARGE_SOURCE,
          ISOLATION_DISTANCE_FLOWERING_APART,
          POLLEN_PARENT_INSPECTIONS,
          SAME_GROUND,
          LOT_MASS_EXCESS,
          GERMINATION_IF_STATED,
          GERMINATION_LABEL_ACCEPTED,
          POST_CONTROL_PRODUCER_RISK,
          POST_CONTROL_NON_HYBRIDS_STATED,
          POST_CONTROL_FEMALE_OFF_TYPES,
          POST_CONTROL_FEMALE_SHEDDING,
          BLEND_SHARE ->
          false;
      default -> true;
    };
  }

  private static boolean any(Set<Quantity> quantities, Answers book) {
    return quantities.stream().anyMatch(quantity -> book.limit(quantity).isPresent());
  }

  private RulebookRefused refused(String place, Quantity quantity, Set<Category> categories) {
    return new RulebookRefused(
        "%s: %s (%s, %s): nothing reads this line: for none of its categories, roles and kinds of rye is it what the book asks for. Take it out, or put right what it holds for%s"
            .formatted(file, place, quantity, List.copyOf(categories), hint(quantity)));
  }

  private static String hint(Quantity quantity) {
    return switch (quantity) {
      case LARGE_SOURCE_AREA, ISOLATION_DISTANCE_LARGE_SOURCE ->
          "; the distance to a large source and the area that makes it large belong together";
      case BLEND_SHARE -> "; the share of a mixture is the breeder's";
      default -> "";
    };
  }
}
