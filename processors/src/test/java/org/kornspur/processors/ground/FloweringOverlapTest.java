package org.kornspur.processors.ground;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.LocalDate;
import java.util.Optional;
import java.util.OptionalLong;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Combinators;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.kornspur.processors.ground.FloweringOverlap.Apart;
import org.kornspur.processors.ground.FloweringOverlap.Assumed;
import org.kornspur.processors.ground.FloweringOverlap.Together;
import org.kornspur.processors.ground.FloweringOverlap.UnknownDay;

class FloweringOverlapTest {
  private static LocalDate june(int day) {
    return LocalDate.of(2026, 5, 31).plusDays(day);
  }

  private static FloweringWindow window(Integer from, Integer to) {
    return new FloweringWindow(
        Optional.ofNullable(from).map(FloweringOverlapTest::june),
        Optional.ofNullable(to).map(FloweringOverlapTest::june));
  }

  /** Days of June counted by hand on a calendar. */
  @ParameterizedTest
  @CsvSource({
    "1, 10, 1, 10, 10",
    "1, 10, 10, 20, 1",
    "1, 10, 6, 20, 5",
    "6, 20, 1, 10, 5",
    "1, 30, 12, 14, 3",
    "7, 7, 7, 7, 1",
  })
  void shouldCountTheDaysInCommon(int from, int to, int otherFrom, int otherTo, int days) {
    FloweringOverlap overlap =
        FloweringOverlap.between(window(from, to), window(otherFrom, otherTo));
    assertThat(overlap)
        .isInstanceOfSatisfying(Together.class, it -> assertThat(it.days()).isEqualTo(days));
    assertThat(overlap.counts()).isTrue();
  }

  @Test
  void shouldCountASourceThatEndsDuringFloweringForTheDaysBeforeOnly() {
    assertThat(FloweringOverlap.between(window(5, 15), window(1, 8)))
        .isEqualTo(new Together(june(5), june(8)));
  }

  @Test
  void shouldCountASourceThatAppearsDuringFloweringForTheDaysAfterOnly() {
    assertThat(FloweringOverlap.between(window(5, 15), window(13, 25)))
        .isEqualTo(new Together(june(13), june(15)));
  }

  @Test
  void shouldNotCountASourceThatEndedTheDayBefore() {
    FloweringOverlap overlap = FloweringOverlap.between(window(5, 15), window(1, 4));
    assertThat(overlap).isEqualTo(new Apart(june(4), june(5)));
    assertThat(overlap.counts()).isFalse();
  }

  @Test
  void shouldKeepApartByTheKnownDaysThoughOthersAreUnknown() {
    assertThat(FloweringOverlap.between(window(5, null), window(null, 4)))
        .isEqualTo(new Apart(june(4), june(5)));
    assertThat(FloweringOverlap.between(window(null, 4), window(5, null)).counts()).isFalse();
  }

  @Test
  void shouldTakeUnknownForOverlappingAndSayWhatIsUnknown() {
    FloweringOverlap overlap = FloweringOverlap.between(window(5, 15), window(8, null));
    assertThat(overlap.counts()).isTrue();
    assertThat(overlap)
        .isInstanceOfSatisfying(
            Assumed.class,
            it -> {
              assertThat(it.mostDays()).isEqualTo(OptionalLong.of(8));
              assertThat(it.unknown()).containsExactly(UnknownDay.LAST_OF_SOURCE);
            });
    assertThat(FloweringOverlap.between(FloweringWindow.unknown(), FloweringWindow.unknown()))
        .isInstanceOfSatisfying(
            Assumed.class, it -> assertThat(it.mostDays()).isEqualTo(OptionalLong.empty()));
  }

  @Test
  void shouldRefuseAWindowThatEndsBeforeItBegins() {
    assertThatThrownBy(() -> window(5, 4))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("ends on 2026-06-04, before it begins on 2026-06-05");
  }

  @Provide
  Arbitrary<FloweringWindow> windows() {
    Arbitrary<Integer> day = Arbitraries.integers().between(1, 30);
    return Combinators.combine(day.injectNull(0.2), day.injectNull(0.2))
        .filter((a, b) -> a == null || b == null || a <= b)
        .as(FloweringOverlapTest::window);
  }

  /** A calendar walked day by day; unknown ends reach to both ends of the calendar. */
  @Property
  void shouldAgreeWithACalendar(
      @ForAll("windows") FloweringWindow crop, @ForAll("windows") FloweringWindow source) {
    int common = 0;
    for (int day = 0; day <= 31; day++) {
      if (isOpen(crop, june(day)) && isOpen(source, june(day))) {
        common++;
      }
    }
    FloweringOverlap overlap = FloweringOverlap.between(crop, source);
    assertThat(overlap.counts()).isEqualTo(common > 0);
    if (overlap instanceof Together together) {
      assertThat(together.days()).isEqualTo(common);
    }
    assertThat(FloweringOverlap.between(source, crop).counts()).isEqualTo(overlap.counts());
  }

  private static boolean isOpen(FloweringWindow window, LocalDate day) {
    return window.from().map(from -> !day.isBefore(from)).orElse(true)
        && window.to().map(to -> !day.isAfter(to)).orElse(true);
  }
}
