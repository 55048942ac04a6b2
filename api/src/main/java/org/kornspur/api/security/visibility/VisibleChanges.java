package org.kornspur.api.security.visibility;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import java.util.function.Supplier;
import org.kornspur.api.readmodel.ReadModel;
import org.kornspur.api.readmodel.StandingChange;
import org.kornspur.ingest.contract.Subject;

/** Changes of standings as one caller hears of them. What is the caller's may change meanwhile. */
public final class VisibleChanges {
  private final Supplier<Visibility> visibilities;
  private final ReadModel readModel;

  VisibleChanges(Supplier<Visibility> visibilities, ReadModel readModel) {
    this.visibilities = visibilities;
    this.readModel = readModel;
  }

  /**
   * The change as it may be told; empty where it may not.
   *
   * @param view what is told of a change to who may hear of it
   */
  public Optional<JsonNode> shown(
      StandingChange change, Function<StandingChange, ?> view, ObjectMapper json) {
    Visibility visibility = visibilities.get();
    if (!visibility.sees(Subject.parse(change.subject()))) {
      return Optional.empty();
    }
    JsonNode whole = json.valueToTree(view.apply(change));
    return Optional.of(
        visibility.withholdsNames()
            ? ResponseRedactor.takenOutOf(
                whole, new IdRedactor(readModel.standings(), visibility, Set.of()))
            : whole);
  }
}
