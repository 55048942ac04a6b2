package org.kornspur.api.readmodel;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.kornspur.contract.FactHeader;
import org.kornspur.standing.LotRelease;
import org.kornspur.standing.ReleaseStep;

/** More than two days between record and receipt are said: common practice, no source. */
class ReceiptTimesTest {
  private static final Instant RECORDED = Instant.parse("2024-09-02T08:05:00Z");

  @ParameterizedTest
  @CsvSource({
    "PT0S, ",
    "PT-5M, ",
    "PT48H, ",
    "PT48H1S, 2",
    "PT71H59M, 2",
    "PT72H, 3",
    "P817D, 817",
  })
  void aFactThatCameLateSaysByHowManyDays(Duration later, Long days) {
    ReceiptTimes log = factId -> Optional.of(RECORDED.plus(later));
    assertThat(log.late(header()).map(ReceiptTimes.Late::days))
        .isEqualTo(Optional.ofNullable(days));
  }

  @Test
  void whereTheLogDidNotKeepATimeNothingIsClaimed() {
    ReceiptTimes log = factId -> Optional.empty();
    assertThat(log.late(header())).isEmpty();
  }

  /** Our own rule, no source: what a sender claims dates nothing that the log saw. */
  @ParameterizedTest
  @CsvSource({
    // claimed, received, since
    "2024-09-02T08:05:00Z, 2024-09-20T00:00:00Z, 2024-09-20T00:00:00Z",
    "2024-09-02T08:05:00Z,                     , 2024-09-02T08:05:00Z",
    // it came before the release, which the claimed time was moved to
    "2024-09-02T08:05:00Z, 2024-08-20T00:00:00Z, 2024-09-02T08:05:00Z"
  })
  void aSuspensionIsDatedByTheReceiptOfWhatSuspended(
      Instant claimed, Instant received, Instant since) {
    ReceiptTimes log = factId -> Optional.ofNullable(received);
    LotRelease release =
        LotRelease.newBuilder()
            .setStep(ReleaseStep.SUSPENDED)
            .setSince(claimed)
            .setSignatures(List.of())
            .setSignaturesNeeded(1)
            .setCauses(List.of("f-1"))
            .setChanges(List.of())
            .setDispatchedUnreleasedKg(0)
            .build();
    assertThat(log.since(release)).contains(since);
  }

  private static FactHeader header() {
    return FactHeader.newBuilder()
        .setFactId("f-1")
        .setHappenedAt(RECORDED)
        .setRecordedAt(RECORDED)
        .setRecordedBy("invented")
        .setSourceDocument("INV-1")
        .build();
  }
}
