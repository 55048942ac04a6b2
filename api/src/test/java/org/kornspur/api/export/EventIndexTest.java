package org.kornspur.api.export;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.kornspur.api.export.EventIndex.Found;
import org.kornspur.api.export.EventIndex.Place;
import org.kornspur.api.export.EventIndex.Position;
import org.kornspur.api.export.epcis.EventQuery;
import org.kornspur.api.export.epcis.EventQuery.Span;
import org.kornspur.api.export.identity.EventId;
import org.kornspur.ingest.contract.FactType;

/** Held against a plain list of the same rows, filtered and sorted. */
class EventIndexTest {
  private static final int ROWS = 5_000;

  private record Row(String factId, FactType type, long happened, long recorded, Place place) {
    Position position() {
      return new Position(happened, EventIndex.key(EventId.uuidOfFact(factId)));
    }
  }

  private final EventIndex index = new EventIndex();
  private final List<Row> rows = rows();

  private List<Row> rows() {
    Random random = new Random(20261125);
    List<Row> made = new ArrayList<>();
    for (int number = 0; number < ROWS; number++) {
      long happened = random.nextInt(1_000);
      made.add(
          new Row(
              "fact-" + number,
              FactType.values()[random.nextInt(FactType.values().length)],
              happened,
              happened + random.nextInt(500),
              new Place(random.nextInt(4), number)));
    }
    made.forEach(
        row ->
            index.add(
                EventId.uuidOfFact(row.factId()),
                row.type(),
                row.happened(),
                row.recorded(),
                row.recorded() + 7,
                row.place()));
    return made;
  }

  @Test
  void pagesTogetherAreTheWholeAnswerInOrder() {
    EventQuery query = query(Set.of("TransformationEvent"), span(100, 900), span(200, 1_200));
    List<Place> expected =
        rows.stream()
            .filter(row -> query.factTypes().contains(row.type()))
            .filter(row -> row.happened() >= 100 && row.happened() < 900)
            .filter(row -> row.recorded() >= 200 && row.recorded() < 1_200)
            .sorted(Comparator.comparing(Row::position))
            .map(Row::place)
            .toList();
    List<Place> paged = new ArrayList<>();
    Position at = Position.START;
    List<Found> page = index.find(query.factTypes(), query, at, 37);
    while (!page.isEmpty()) {
      page.forEach(found -> paged.add(found.place()));
      at = page.get(page.size() - 1).position();
      page = index.find(query.factTypes(), query, at, 37);
    }
    assertThat(expected).hasSizeGreaterThan(100);
    assertThat(paged).isEqualTo(expected);
  }

  @Test
  void theFirstOfAnIdCounts() {
    index.add(EventId.uuidOfFact("fact-7"), FactType.HARVEST, 1, 1, 1, new Place(3, 999_999));
    assertThat(index.size()).isEqualTo(ROWS);
    assertThat(index.place(EventId.uuidOfFact("fact-7"))).contains(rows.get(7).place());
    assertThat(index.place(EventId.uuidOfFact("unheard-of"))).isEmpty();
    assertThat(index.receivedAt(EventId.uuidOfFact("fact-7")))
        .contains(Instant.ofEpochMilli(rows.get(7).recorded() + 7));
  }

  @Test
  void aTimeOfReceiptThatTheLogDidNotKeepIsNotMadeUp() {
    Place place = new Place(0, ROWS);
    index.add(EventId.uuidOfFact("old"), FactType.HARVEST, 1, 1, EventIndex.NOT_KEPT, place);
    assertThat(index.place(EventId.uuidOfFact("old"))).contains(place);
    assertThat(index.receivedAt(EventId.uuidOfFact("old"))).isEmpty();
    assertThat(index.receivedAt(EventId.uuidOfFact("unheard-of"))).isEmpty();
  }

  private static EventQuery query(Set<String> types, Span eventTime, Span recordTime) {
    return new EventQuery(types, Set.of(), Set.of(), eventTime, recordTime, List.of());
  }

  private static Span span(long from, long to) {
    return new Span(Optional.of(Instant.ofEpochMilli(from)), Optional.of(Instant.ofEpochMilli(to)));
  }
}
