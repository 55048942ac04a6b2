package org.kornspur.api.command.audit;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import org.junit.jupiter.api.Test;

/** Draws are held against what sha256sum and sort of GNU coreutils make of the same ids. */
class SampleDrawTest {

  /**
   * Made by {@code for id in …; do printf '%s %s\n' "$(printf '%s%s' 4711 "$id" | sha256sum | cut
   * -c1-64)" "$id"; done | sort}.
   */
  private static final List<String> IN_ORDER =
      List.of("C-1", "L25-S01", "L25-S03", "Ä-7", "L25-S02", "M24-01");

  @Test
  void drawsWhatAShellDraws() {
    List<String> ids = IN_ORDER.stream().sorted().toList();
    assertThat(new SampleDraw(4, "4711").of(ids)).isEqualTo(IN_ORDER.subList(0, 4));
    assertThat(new SampleDraw(4, "4711").place("C-1"))
        .isEqualTo("0842ae3f5e71ddc9de90f4fbda6cce802d840797e03626f48e0f167de6e51a4a");
  }

  @Test
  void neitherOrderNorRepetitionOfTheIdsMakesADifferenceAndTheSeedDoes() {
    List<String> twice = new ArrayList<>(IN_ORDER);
    twice.addAll(IN_ORDER);
    Collections.reverse(twice);
    assertThat(new SampleDraw(6, "4711").of(twice)).isEqualTo(IN_ORDER);
    assertThat(new SampleDraw(6, "4712").of(twice))
        .isNotEqualTo(IN_ORDER)
        .containsExactlyInAnyOrderElementsOf(IN_ORDER);
    assertThat(new SampleDraw(100, "4711").of(twice)).isEqualTo(IN_ORDER);
  }

  @Test
  void listsAreReadAsPeopleWriteThem() {
    assertThat(LotChoice.ids(" L1, L2;L3\r\n\tL1 L4\n")).containsExactly("L1", "L2", "L3", "L4");
    assertThat(LotChoice.ids("  ")).isEmpty();
  }
}
