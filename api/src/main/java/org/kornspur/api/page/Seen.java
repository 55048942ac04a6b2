package org.kornspur.api.page;

import jakarta.enterprise.context.RequestScoped;
import jakarta.inject.Inject;
import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;
import org.kornspur.api.access.Sight;
import org.kornspur.api.border.Border;
import org.kornspur.api.border.BorderedPedigree;
import org.kornspur.api.engine.Engine;
import org.kornspur.api.feed.Feeds;
import org.kornspur.api.feed.StandingQuery;
import org.kornspur.api.feed.StandingRow;
import org.kornspur.api.resource.Answers;
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
  @Inject Answers answers;

  /** Rows that match, of one page. */
  List<StandingRow> rows(StandingQuery query) {
    return answers.find(query).items();
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
    return sight.isWhole() ? engine.pedigree() : new BorderedPedigree(engine.pedigree(), sight);
  }

  /** Whether all that a fact says may be shown. */
  boolean sees(Entry entry) {
    Sight sight = border.sight();
    return sight.isWhole() || sight.sees(entry.fact());
  }
}
