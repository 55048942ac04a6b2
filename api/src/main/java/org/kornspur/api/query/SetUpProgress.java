package org.kornspur.api.query;

import jakarta.enterprise.context.RequestScoped;
import jakarta.inject.Inject;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.kornspur.api.kafka.NotReady;
import org.kornspur.api.readmodel.FactReadModel;
import org.kornspur.api.readmodel.SeasonFilter;
import org.kornspur.api.readmodel.SeasonTotal;
import org.kornspur.api.security.Caller;
import org.kornspur.api.security.CurrentCaller;
import org.kornspur.api.security.Permission;
import org.kornspur.api.security.people.People;
import org.kornspur.ingest.contract.Subject;

/** How much of what a new site needs first is there, as far as the caller sees to it. */
@RequestScoped
public class SetUpProgress {
  @Inject CurrentCaller caller;
  @Inject FactReadModel facts;
  @Inject VisibleData data;
  @Inject People people;

  /** What a new site needs first, in this order. */
  public enum Step {
    ENTERPRISE(Permission.POST_MASTER_DATA),
    PEOPLE(Permission.MANAGE_PEOPLE),
    HYBRIDS(Permission.POST_MASTER_DATA),
    FIELDS(Permission.POST_CROP_DECLARATIONS),
    SEASON(Permission.POST_SOWINGS);

    private final Permission needs;

    Step(Permission needs) {
      this.needs = needs;
    }
  }

  /**
   * How far a step is.
   *
   * @param isOwn whether the caller sees to it; of others nothing is told
   * @param count how many are there
   */
  public record Progress(Step step, boolean isOwn, int count, boolean isDone) {}

  /** Every step. */
  public List<Progress> steps() {
    return Arrays.stream(Step.values()).map(this::progress).toList();
  }

  /**
   * Whether the caller should begin here: the last of the own steps is not done. Steps before it
   * may have been left out.
   */
  public boolean isOpen() {
    if (caller.ifKnown().filter(known -> known.may(Permission.SET_UP)).isEmpty()) {
      return false;
    }
    try {
      return last().filter(step -> !progress(step).isDone()).isPresent();
    } catch (NotReady starting) {
      return false;
    }
  }

  private Optional<Step> last() {
    return Arrays.stream(Step.values()).filter(this::isOwn).reduce((one, later) -> later);
  }

  private Progress progress(Step step) {
    if (!isOwn(step)) {
      return new Progress(step, false, 0, false);
    }
    int count =
        switch (step) {
          case ENTERPRISE -> facts.enterprises().all().size();
          case PEOPLE -> (int) people.all().stream().filter(one -> !one.disabled()).count();
          case HYBRIDS -> facts.hybrids();
          case FIELDS -> count(Subject.Kind.CROP);
          case SEASON -> count(Subject.Kind.LOT);
        };
    boolean isDone = step == Step.PEOPLE ? people.areMoreThanFirst() : count > 0;
    return new Progress(step, true, count, isDone);
  }

  private int count(Subject.Kind kind) {
    return data.seasons(kind, SeasonFilter.ALL).stream().mapToInt(SeasonTotal::all).sum();
  }

  /** People of an issuer of tokens are kept there. */
  private boolean isOwn(Step step) {
    Caller known = caller.get();
    return known.may(step.needs) && (step != Step.PEOPLE || known.proof() != Caller.Proof.TOKEN);
  }
}
