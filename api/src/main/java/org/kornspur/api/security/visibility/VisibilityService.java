package org.kornspur.api.security.visibility;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.context.RequestScoped;
import jakarta.inject.Inject;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import java.util.function.Supplier;
import org.kornspur.api.kafka.ProcessorsClient;
import org.kornspur.api.readmodel.ReadModel;
import org.kornspur.api.readmodel.StandingChange;
import org.kornspur.api.security.Caller;
import org.kornspur.api.security.CurrentCaller;
import org.kornspur.api.security.Role;

/** Says what a caller may see. */
@ApplicationScoped
public class VisibilityService {
  @Inject ProcessorsClient processors;
  @Inject ReadModel readModel;
  @Inject CurrentCaller current;
  @Inject Kept kept;

  /** The visibility of the caller, looked up once in a request. */
  public Visibility visibility() {
    return kept.orMake(
        () -> current.ifKnown().map(this::of).orElseGet(() -> new CombinedVisibility(List.of())));
  }

  /**
   * Whether with this visibility one may read the id of a fact; it often holds the id of what the
   * fact is about.
   */
  public boolean namesFact(Visibility visibility, String factId) {
    return redacted(visibility, factId).equals(factId);
  }

  /** A text without the ids that one may not name with this visibility. */
  public String redacted(Visibility visibility, String text) {
    return visibility.withholdsNames()
        ? new IdRedactor(readModel.standings(), visibility, Set.of()).redacted(text)
        : text;
  }

  /** The visibility of a caller as the data stand now. */
  public Visibility of(Caller caller) {
    return new CombinedVisibility(
        caller.roles().stream().flatMap(role -> of(role, caller.enterpriseId()).stream()).toList());
  }

  /**
   * A change of a standing as a caller may be told it, with what is the caller's by now; empty
   * where it may not be told.
   *
   * @param view what is told of a change to who may hear of it
   */
  public Optional<JsonNode> shown(
      Caller caller, StandingChange change, Function<StandingChange, ?> view, ObjectMapper json) {
    Visibility visibility = of(caller);
    if (!visibility.sees(change.after().subject())) {
      return Optional.empty();
    }
    JsonNode whole = json.valueToTree(view.apply(change));
    return Optional.of(
        visibility.withholdsNames()
            ? ResponseRedactor.redacted(
                whole, new IdRedactor(readModel.standings(), visibility, Set.of()))
            : whole);
  }

  private Optional<Visibility> of(Role role, Optional<String> enterpriseId) {
    return switch (role) {
      case QUALITY, AUDITOR -> Optional.of(Visibility.everything());
      case INSPECTOR -> Optional.of(new InspectorVisibility());
      case MULTIPLIER ->
          enterpriseId.map(
              id ->
                  new GrowerVisibility(
                      id, readModel.standings(), processors.pedigree(), processors::dossier));
      case LABORATORY -> enterpriseId.map(id -> new LaboratoryVisibility(id, processors::entries));
      case ADMINISTRATOR, MONITOR -> Optional.empty();
    };
  }

  /** The visibility of the caller in this request, once it was asked for. */
  @RequestScoped
  static class Kept {
    private Visibility visibility;

    Visibility orMake(Supplier<Visibility> make) {
      if (visibility == null) {
        visibility = make.get();
      }
      return visibility;
    }
  }
}
