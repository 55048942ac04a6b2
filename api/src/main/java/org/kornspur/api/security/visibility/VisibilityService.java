package org.kornspur.api.security.visibility;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.kornspur.api.kafka.Engine;
import org.kornspur.api.readmodel.ReadModel;
import org.kornspur.api.security.Caller;
import org.kornspur.api.security.CurrentCaller;
import org.kornspur.api.security.Role;

/** Says what a caller may see. */
@ApplicationScoped
public class VisibilityService {
  @Inject Engine engine;
  @Inject ReadModel readModel;
  @Inject CurrentCaller current;
  @Inject RequestVisibility kept;

  /** The visibility of who asks, looked up once in a request. */
  public Visibility visibility() {
    return kept.orMake(
        () -> current.ifKnown().map(this::of).orElseGet(VisibilityService::ofNobody));
  }

  /**
   * Whether with this visibility one may read the id of a fact; it often holds the id of what the
   * fact is about.
   */
  public boolean namesFact(Visibility visibility, String factId) {
    return !visibility.withholdsNames()
        || new IdRedactor(readModel.standings(), visibility, Set.of())
            .takenOutOf(factId)
            .equals(factId);
  }

  /** The visibility of a caller as the data stand now. */
  public Visibility of(Caller caller) {
    return new CombinedVisibility(
        caller.roles().stream().flatMap(role -> of(role, caller.enterpriseId()).stream()).toList());
  }

  /** The changes of standings that a caller may hear of. */
  public VisibleChanges changesOf(Caller caller) {
    return new VisibleChanges(() -> of(caller), readModel);
  }

  private static Visibility ofNobody() {
    return new CombinedVisibility(List.of());
  }

  private Optional<Visibility> of(Role role, Optional<String> enterpriseId) {
    return switch (role) {
      case QUALITY, AUDITOR -> Optional.of(Visibility.everything());
      case INSPECTOR -> Optional.of(new InspectorVisibility());
      case MULTIPLIER ->
          enterpriseId.map(
              id ->
                  new GrowerVisibility(
                      id, readModel.standings(), engine.pedigree(), engine::wholeDossier));
      case LABORATORY -> enterpriseId.map(id -> new LaboratoryVisibility(id, engine::dossier));
      case ADMINISTRATOR -> Optional.empty();
    };
  }
}
