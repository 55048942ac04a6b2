package org.kornspur.api.readmodel;

import io.micrometer.core.instrument.Gauge;
import io.micrometer.core.instrument.MeterRegistry;
import io.quarkus.runtime.StartupEvent;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.event.Observes;
import jakarta.inject.Inject;
import java.time.Clock;
import java.time.LocalDate;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.function.ToDoubleFunction;
import org.kornspur.api.kafka.NotReady;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.standing.StandingState;

/**
 * What a person who watches a site wants to know of its seed, as metrics. All is kept as standings
 * change; nothing walks the lots when a metric is read. What cannot be told yet is not a number.
 */
@ApplicationScoped
public class SiteGauges {
  private static final int WEEK = 7;
  private static final int MONTH = 30;

  @Inject ReadModel readModel;
  private final Clock clock = Clock.systemDefaultZone();

  /**
   * Evidence that is owed within some days from today.
   *
   * @param first of the days, today being 0; empty for all before
   * @param last of them; empty for all after
   */
  private record DaysLeft(String word, Optional<Integer> first, Optional<Integer> last) {}

  private static final List<DaysLeft> DAYS_LEFT =
      List.of(
          new DaysLeft("overdue", Optional.empty(), Optional.of(-1)),
          new DaysLeft("week", Optional.of(0), Optional.of(WEEK)),
          new DaysLeft("month", Optional.of(WEEK + 1), Optional.of(MONTH)),
          new DaysLeft("later", Optional.of(MONTH + 1), Optional.empty()));

  void register(@Observes StartupEvent start, MeterRegistry meters) {
    for (Subject.Kind kind : List.of(Subject.Kind.LOT, Subject.Kind.CROP)) {
      Arrays.stream(StandingState.values())
          .filter(state -> state != StandingState.UNKNOWN)
          .forEach(
              state ->
                  gauge(
                          "kornspur." + kind.word() + "s",
                          one -> readModel.standings().count(kind, state))
                      .description("By standing")
                      .tag("standing", state.name().toLowerCase(Locale.ROOT))
                      .register(meters));
    }
    for (DaysLeft days : DAYS_LEFT) {
      gauge("kornspur.evidence.owed", one -> owed(days))
          .description("Pieces of evidence that are owed, by the days that are left")
          .tag("due", days.word())
          .register(meters);
    }
    gauge("kornspur.evidence.owed", one -> owedOnNoDay())
        .description("Pieces of evidence that are owed, by the days that are left")
        .tag("due", "no_day")
        .register(meters);
    gauge("kornspur.quarantine.held", one -> readModel.quarantine().waiting())
        .description("Refused inputs that nobody has decided on")
        .register(meters);
  }

  private Gauge.Builder<SiteGauges> gauge(String name, ToDoubleFunction<SiteGauges> value) {
    return Gauge.builder(
        name,
        this,
        one -> {
          try {
            return value.applyAsDouble(one);
          } catch (NotReady notYet) {
            return Double.NaN;
          }
        });
  }

  private double owed(DaysLeft days) {
    LocalDate today = LocalDate.now(clock);
    return readModel
        .standings()
        .piecesOwedBetween(
            days.first().map(today::plusDays).orElse(LocalDate.MIN),
            days.last().map(today::plusDays).orElse(LocalDate.MAX.minusDays(1)));
  }

  /** What no day is known of stands at the last of all days. */
  private double owedOnNoDay() {
    return readModel.standings().piecesOwedBetween(LocalDate.MAX, LocalDate.MAX);
  }
}
