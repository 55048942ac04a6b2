package org.kornspur.api.web.map;

import jakarta.enterprise.context.RequestScoped;
import jakarta.inject.Inject;
import java.util.List;
import java.util.stream.Stream;
import org.kornspur.api.query.RequestWords;
import org.kornspur.api.query.plan.ApprovedFields;
import org.kornspur.api.query.plan.PlanGround;
import org.kornspur.api.security.CurrentCaller;
import org.kornspur.api.security.Permission;
import org.kornspur.api.web.map.SeasonMapData.Planned;
import org.kornspur.processors.plan.field.FieldProposal;
import org.kornspur.processors.plan.field.SeasonFields;

/** What approved plans put on fields, for who may read plans. */
@RequestScoped
class PlannedOnMap {
  @Inject ApprovedFields approved;
  @Inject PlanGround ground;
  @Inject RequestWords words;
  @Inject CurrentCaller caller;

  /** Years of harvest with a planned crop. */
  List<Integer> years() {
    return mayRead() ? approved.years() : List.of();
  }

  /** The crops of a harvest, each with all that speaks against it. */
  List<Planned> of(int year) {
    return years().contains(year)
        ? approved.of(year, ground.known(year)).stream().flatMap(this::crops).toList()
        : List.of();
  }

  private boolean mayRead() {
    return caller.get().may(Permission.READ_PLANS);
  }

  private Stream<Planned> crops(ApprovedFields.OfPlan plan) {
    return FieldProposal.check(plan.crops()).placed().stream().map(one -> planned(plan, one));
  }

  private Planned planned(ApprovedFields.OfPlan plan, SeasonFields.Placed one) {
    return new Planned(
        plan.version().getPlanId(),
        plan.version().getName(),
        one.placement().crop().seedId(),
        one.placement().field().name(),
        one.placement().field().outline(),
        one.conflicts().stream().map(words.words()::plain).toList());
  }
}
