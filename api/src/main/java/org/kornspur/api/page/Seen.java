package org.kornspur.api.page;

import jakarta.enterprise.context.RequestScoped;
import jakarta.inject.Inject;
import java.util.Optional;
import java.util.function.Consumer;
import org.kornspur.api.access.Visibility;
import org.kornspur.api.engine.Engine;
import org.kornspur.api.readmodel.CompressedRecord;
import org.kornspur.api.readmodel.Feeds;
import org.kornspur.api.readmodel.SeedValues;
import org.kornspur.api.readmodel.StandingQuery;
import org.kornspur.api.readmodel.StandingRow;
import org.kornspur.api.readmodel.Worklist;
import org.kornspur.api.visibility.VisibilityService;
import org.kornspur.api.visibility.VisiblePedigree;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.dossier.Entry;
import org.kornspur.processors.pedigree.Pedigree;
import org.kornspur.standing.LotStanding;

/** The data as who asks may see them; what is not seen is as if it were not there. */
@RequestScoped
public class Seen {
  @Inject Engine engine;
  @Inject Feeds feeds;
  @Inject VisibilityService border;

  /**
   * What waits among the rows that match.
   *
   * @param most how many of each kind to show
   */
  Worklist waiting(StandingQuery query, int most) {
    Visibility visibility = border.visibility();
    return visibility.isWhole()
        ? feeds.standings().waiting(query, most)
        : feeds.standings().waiting(query, row -> visibility.sees(row.subject()), most);
  }

  /** The values that some row has. */
  SeedValues values() {
    Visibility visibility = border.visibility();
    return visibility.isWhole()
        ? feeds.standings().values()
        : feeds.standings().values(row -> visibility.sees(row.subject()));
  }

  /** A standing that an index gave out. */
  LotStanding read(CompressedRecord standing) {
    return feeds.read(standing);
  }

  /** Shows every row. */
  void forEachRow(Consumer<StandingRow> visitor) {
    Visibility visibility = border.visibility();
    feeds
        .standings()
        .forEach(
            row -> {
              if (visibility.isWhole() || visibility.sees(row.subject())) {
                visitor.accept(row);
              }
            });
  }

  Optional<StandingRow> row(Subject subject) {
    return border.visibility().sees(subject) ? feeds.standings().row(subject) : Optional.empty();
  }

  Optional<LotStanding> standing(Subject subject) {
    return border.visibility().sees(subject) ? feeds.standing(subject) : Optional.empty();
  }

  Pedigree pedigree() {
    Visibility visibility = border.visibility();
    return VisiblePedigree.of(engine.pedigree(), visibility);
  }

  /** Whether all that a fact says may be shown. */
  boolean sees(Entry entry) {
    Visibility visibility = border.visibility();
    return visibility.isWhole() || visibility.sees(entry.fact());
  }
}
