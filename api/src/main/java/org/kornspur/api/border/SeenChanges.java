package org.kornspur.api.border;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import java.util.function.Supplier;
import org.kornspur.api.access.Sight;
import org.kornspur.api.feed.Feeds;
import org.kornspur.api.feed.StandingChange;
import org.kornspur.ingest.contract.Subject;

/** Changes of standings as one caller hears of them. What is the caller's may change meanwhile. */
public final class SeenChanges {
  private final Supplier<Sight> sights;
  private final Feeds feeds;

  SeenChanges(Supplier<Sight> sights, Feeds feeds) {
    this.sights = sights;
    this.feeds = feeds;
  }

  /**
   * The change as it may be told; empty where it may not.
   *
   * @param view what is told of a change to who may hear of it
   */
  public Optional<JsonNode> shown(
      StandingChange change, Function<StandingChange, ?> view, ObjectMapper json) {
    Sight sight = sights.get();
    if (!sight.sees(Subject.parse(change.subject()))) {
      return Optional.empty();
    }
    JsonNode whole = json.valueToTree(view.apply(change));
    return Optional.of(
        sight.withholdsNames()
            ? Withholding.takenOutOf(whole, new WithheldNames(feeds.standings(), sight, Set.of()))
            : whole);
  }
}
