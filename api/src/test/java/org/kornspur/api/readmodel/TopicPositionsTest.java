package org.kornspur.api.readmodel;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

class TopicPositionsTest {

  @Test
  void theTextFormReadsBack() {
    TopicPositions positions = TopicPositions.none().after(3, 9).after(0, 17).after(3, 12);

    assertThat(positions.toString()).isEqualTo("0-17.3-12");
    assertThat(TopicPositions.parse("0-17.3-12")).contains(positions);
  }

  @Test
  void whatIsNoPositionIsRefusedWhateverItIs() {
    for (String foreign :
        new String[] {
          "", "x", "1", "1-", "-1", "1-2.", "1-2,3-4", "1-99999999999999999999", "1".repeat(9000)
        }) {
      assertThat(TopicPositions.parse(foreign)).as(foreign).isEmpty();
    }
  }

  @Test
  void aPositionIncludesWhatStandsBeforeItInTheSamePartitionOnly() {
    TopicPositions positions = TopicPositions.none().after(1, 5);

    assertThat(positions.includes(1, 5)).isTrue();
    assertThat(positions.includes(1, 6)).isFalse();
    assertThat(positions.includes(0, 0)).isFalse();
  }
}
