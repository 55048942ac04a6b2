package org.kornspur.processors.recall;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.contract.Dispatch;
import org.kornspur.contract.FieldCropDeclared;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.balance.MassBalance;
import org.kornspur.processors.balance.MassBalance.Tolerance;
import org.kornspur.processors.balance.MassBalanceAccount;
import org.kornspur.processors.balance.MassFlow;
import org.kornspur.processors.pedigree.Edge;
import org.kornspur.processors.pedigree.Edges;
import org.kornspur.processors.pedigree.Pedigree;
import org.kornspur.processors.pedigree.Trace;

/**
 * A recall drill: where a lot came from, where it went down to the bags at the customers, and
 * whether the masses add up. Its balance is that of the lot and of all lots that it went into.
 *
 * @param back the walk back
 * @param forward the walk forward
 * @param deliveries what customers got, by customer, lot and time
 * @param balance mass balance of the lots forward, the start included
 * @param looseEnds where the walks cannot be followed on
 */
public record RecallDrill(
    Trace back,
    Trace forward,
    List<Delivery> deliveries,
    MassBalance balance,
    List<LooseEnd> looseEnds) {
  private static final Comparator<Delivery> BY_CUSTOMER =
      Comparator.comparing(Delivery::customerId)
          .thenComparing(Delivery::lotId)
          .thenComparing(Delivery::happenedAt)
          .thenComparing(Delivery::factId);

  /**
   * Walks both ways and adds up.
   *
   * @param pedigree where edges are looked up
   * @param facts facts of a crop or lot that still count; none of a lot that may not be looked
   *     into, which then has no account
   * @param start the lot, or a crop
   * @param mostSubjects bound on the subjects of each walk
   * @param countedStockKg what was counted in store, kilograms by lot
   * @param tolerance how far a balance may be off
   */
  public static RecallDrill of(
      Pedigree pedigree,
      Function<Subject, List<SpecificRecord>> facts,
      Subject start,
      int mostSubjects,
      Map<String, Double> countedStockKg,
      Tolerance tolerance) {
    Trace back = Trace.walk(pedigree, start, Trace.Direction.BACK, mostSubjects);
    Trace forward = Trace.walk(pedigree, start, Trace.Direction.FORWARD, mostSubjects);
    Map<Subject, List<SpecificRecord>> known = new HashMap<>();
    Set<Subject> seed = new LinkedHashSet<>(back.steps().keySet());
    seed.addAll(forward.steps().keySet());
    seed.removeIf(subject -> !subject.kind().isJudged());
    seed.forEach(subject -> known.put(subject, facts.apply(subject)));

    Set<String> lotIds =
        forward.steps().keySet().stream()
            .filter(subject -> subject.kind() == Subject.Kind.LOT)
            .filter(subject -> !known.get(subject).isEmpty())
            .map(Subject::id)
            .collect(Collectors.toCollection(LinkedHashSet::new));
    Map<String, SpecificRecord> factsForward = new LinkedHashMap<>();
    forward.steps().keySet().stream()
        .filter(subject -> subject.kind().isJudged())
        .flatMap(subject -> known.get(subject).stream())
        .forEach(fact -> factsForward.put(FactType.idOf(fact), fact));
    List<Delivery> deliveries =
        factsForward.values().stream()
            .filter(Dispatch.class::isInstance)
            .map(Dispatch.class::cast)
            .filter(dispatch -> lotIds.contains(dispatch.getLotId()))
            .map(RecallDrill::delivery)
            .sorted(BY_CUSTOMER)
            .toList();
    return new RecallDrill(
        back,
        forward,
        deliveries,
        MassBalanceAccount.balance(lotIds, factsForward.values(), countedStockKg, tolerance),
        looseEnds(back, forward, known, deliveries));
  }

  /** Loose ends for which the drill is incomplete. */
  public List<LooseEnd> unresolved() {
    return looseEnds.stream().filter(end -> end.kind().isUnresolved()).toList();
  }

  /** Kilograms that each customer got. */
  public Map<String, Double> kgByCustomer() {
    Map<String, Double> byCustomer = new TreeMap<>();
    deliveries.forEach(
        delivery -> byCustomer.merge(delivery.customerId(), delivery.massKg(), Double::sum));
    return byCustomer;
  }

  private static Delivery delivery(Dispatch dispatch) {
    return new Delivery(
        dispatch.getCustomerId(),
        dispatch.getLotId(),
        dispatch.getMassKg(),
        List.copyOf(dispatch.getLabelNumbers()),
        dispatch.getHeader().getHappenedAt(),
        dispatch.getHeader().getFactId());
  }

  private static List<LooseEnd> looseEnds(
      Trace back,
      Trace forward,
      Map<Subject, List<SpecificRecord>> known,
      List<Delivery> deliveries) {
    List<LooseEnd> ends = new ArrayList<>();
    known.forEach(
        (subject, facts) -> {
          if (subject.kind() == Subject.Kind.CROP) {
            if (facts.stream().noneMatch(FieldCropDeclared.class::isInstance)) {
              ends.add(new LooseEnd(subject, LooseEnd.Kind.NOT_DECLARED, ""));
            }
            if (flowsNot(facts, subject, Edge::child)) {
              ends.add(new LooseEnd(subject, LooseEnd.Kind.NO_SOWING, ""));
            }
            if (forward.steps().containsKey(subject) && flowsNot(facts, subject, Edge::parent)) {
              ends.add(new LooseEnd(subject, LooseEnd.Kind.NO_HARVEST, ""));
            }
          } else if (hasNoOrigin(facts, subject)) {
            ends.add(new LooseEnd(subject, LooseEnd.Kind.NO_ORIGIN, ""));
          }
        });
    deliveries.stream()
        .filter(delivery -> delivery.labelNumbers().isEmpty())
        .map(
            delivery ->
                new LooseEnd(
                    Subject.lot(delivery.lotId()), LooseEnd.Kind.NO_LABELS, delivery.factId()))
        .forEach(ends::add);
    ends.sort(
        Comparator.comparing((LooseEnd end) -> !end.kind().isUnresolved())
            .thenComparing(end -> steps(end.subject(), back, forward))
            .thenComparing(LooseEnd::subject)
            .thenComparing(LooseEnd::kind)
            .thenComparing(LooseEnd::factId));
    return List.copyOf(ends);
  }

  private static int steps(Subject subject, Trace back, Trace forward) {
    return back.steps().getOrDefault(subject, forward.steps().getOrDefault(subject, 0));
  }

  private static boolean hasNoOrigin(List<SpecificRecord> facts, Subject lot) {
    return facts.stream()
        .flatMap(fact -> MassFlow.of(fact).stream())
        .noneMatch(
            flow -> flow.lotId().equals(lot.id()) && flow.direction() == MassFlow.Direction.IN);
  }

  private static boolean flowsNot(
      List<SpecificRecord> facts, Subject crop, Function<Edge, Subject> end) {
    return facts.stream()
        .flatMap(fact -> Edges.of(fact).stream())
        .noneMatch(edge -> end.apply(edge).equals(crop));
  }
}
