package org.kornspur.api.page;

import jakarta.enterprise.context.RequestScoped;
import jakarta.inject.Inject;
import java.util.Optional;
import java.util.function.Consumer;
import org.kornspur.api.access.Sight;
import org.kornspur.api.border.Border;
import org.kornspur.api.border.BorderedPedigree;
import org.kornspur.api.engine.Engine;
import org.kornspur.api.feed.Feeds;
import org.kornspur.api.feed.Packed;
import org.kornspur.api.feed.SeedValues;
import org.kornspur.api.feed.StandingQuery;
import org.kornspur.api.feed.StandingRow;
import org.kornspur.api.feed.Waiting;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.dossier.Entry;
import org.kornspur.processors.pedigree.Pedigree;
import org.kornspur.standing.LotStanding;

/** The data as who asks may see them; what is not seen is as if it were not there. */
@RequestScoped
public class Seen {
  @Inject Engine engine;
  @Inject Feeds feeds;
  @Inject Border border;

  /**
   * What waits among the rows that match.
   *
   * @param most how many of each kind to show
   */
  Waiting waiting(StandingQuery query, int most) {
    Sight sight = border.sight();
    return sight.isWhole()
        ? feeds.standings().waiting(query, most)
        : feeds.standings().waiting(query, row -> sight.sees(row.subject()), most);
  }

  /** The values that some row has. */
  SeedValues values() {
    Sight sight = border.sight();
    return sight.isWhole()
        ? feeds.standings().values()
        : feeds.standings().values(row -> sight.sees(row.subject()));
  }

  /** A standing that an index gave out. */
  LotStanding read(Packed standing) {
    return feeds.read(standing);
  }

  /** Shows every row. */
  void forEachRow(Consumer<StandingRow> visitor) {
    Sight sight = border.sight();
    feeds
        .standings()
        .forEach(
            row -> {
              if (sight.isWhole() || sight.sees(row.subject())) {
                visitor.accept(row);
              }
            });
  }

  Optional<StandingRow> row(Subject subject) {
    return border.sight().sees(subject) ? feeds.standings().row(subject) : Optional.empty();
  }

  Optional<LotStanding> standing(Subject subject) {
    return border.sight().sees(subject) ? feeds.standing(subject) : Optional.empty();
  }

  Pedigree pedigree() {
    Sight sight = border.sight();
    return BorderedPedigree.of(engine.pedigree(), sight);
  }

  /** Whether all that a fact says may be shown. */
  boolean sees(Entry entry) {
    Sight sight = border.sight();
    return sight.isWhole() || sight.sees(entry.fact());
  }
}
