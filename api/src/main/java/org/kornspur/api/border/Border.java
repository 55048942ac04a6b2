package org.kornspur.api.border;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.Optional;
import java.util.Set;
import org.kornspur.api.access.Caller;
import org.kornspur.api.access.CurrentCaller;
import org.kornspur.api.access.Role;
import org.kornspur.api.access.Sight;
import org.kornspur.api.engine.Engine;
import org.kornspur.api.feed.Feeds;

/** Says what a caller may see. */
@ApplicationScoped
public class Border {
  private final Engine engine;
  private final Feeds feeds;
  private final CurrentCaller current;
  private final RequestSight kept;

  @Inject
  public Border(Engine engine, Feeds feeds, CurrentCaller current, RequestSight kept) {
    this.engine = engine;
    this.feeds = feeds;
    this.current = current;
    this.kept = kept;
  }

  /** The sight of who asks, looked up once in a request. */
  public Sight sight() {
    return kept.orMake(() -> current.ifKnown().map(this::of).orElseGet(Border::ofNobody));
  }

  /**
   * Whether with this sight one may read the id of a fact; it often holds the id of what the fact
   * is about.
   */
  public boolean namesFact(Sight sight, String factId) {
    return !sight.withholdsNames()
        || new WithheldNames(feeds.standings(), sight, Set.of()).takenOutOf(factId).equals(factId);
  }

  /** The sight of a caller as the data stand now. */
  public Sight of(Caller caller) {
    return new JoinedSight(
        caller.roles().stream().flatMap(role -> of(role, caller.enterpriseId()).stream()).toList());
  }

  /** The changes of standings that a caller may hear of. */
  public SeenChanges changesOf(Caller caller) {
    return new SeenChanges(() -> of(caller), feeds);
  }

  private static Sight ofNobody() {
    return new JoinedSight(java.util.List.of());
  }

  private Optional<Sight> of(Role role, Optional<String> enterpriseId) {
    return switch (role) {
      case QUALITY, AUDITOR -> Optional.of(Sight.everything());
      case INSPECTOR -> Optional.of(new CropSight());
      case MULTIPLIER ->
          enterpriseId.map(
              id ->
                  new HolderSight(id, feeds.standings(), engine.pedigree(), engine::wholeDossier));
      case LABORATORY -> enterpriseId.map(id -> new LaboratorySight(id, engine::dossier));
      case ADMINISTRATOR -> Optional.empty();
    };
  }
}
