package org.kornspur.processors.gates;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.kornspur.contract.FieldCropDeclared;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.dossier.Report.Neighbour;
import org.kornspur.processors.standards.Limit;
import org.kornspur.processors.standards.Quantity;
import org.kornspur.processors.standards.Rulebook;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.processors.verdict.Verdict;

/**
 * Distance from a seed crop to the nearest foreign rye pollen, metres between the outlines.
 *
 * <p>Council Directive 66/402/EEC, Annex I; Seed Ordinance (SaatV), Annex 2 no. 1.3. Where the
 * authority accepted a shield, the distance that the rulebook asks for with a shield holds. A
 * source counts unless its shedding is known to end before flowering begins, or to begin after it
 * ends.
 */
final class Isolation implements GateRule {

  @Override
  public List<Verdict> judge(Dossier dossier, Rulebook rulebook) {
    return SeedCrop.of(dossier, rulebook)
        .flatMap(crop -> limit(crop).map(limit -> List.of(judge(crop, limit))))
        .orElse(List.of());
  }

  private static Optional<Limit> limit(SeedCrop crop) {
    Optional<Limit> plain = crop.limit(Quantity.ISOLATION_DISTANCE);
    boolean shielded = Boolean.TRUE.equals(crop.declaration().getShieldAccepted());
    return plain.isPresent() && shielded
        ? crop.limit(Quantity.ISOLATION_DISTANCE_SHIELDED).or(() -> plain)
        : plain;
  }

  private static Verdict judge(SeedCrop crop, Limit limit) {
    List<Neighbour> counting =
        crop.dossier().neighbours().stream()
            .filter(neighbour -> mayMeet(crop.declaration(), neighbour))
            .toList();
    if (counting.isEmpty()) {
      return new Finding(
              Gate.ISOLATION,
              "",
              limit.value(),
              Optional.empty(),
              List.of(crop.declarationId()),
              "No foreign pollen that can meet the flowering of this crop is known within "
                  + Wording.number(limit.value())
                  + " m")
          .against(limit, "");
    }
    Neighbour nearest = counting.get(0);
    List<String> factIds = new ArrayList<>(List.of(crop.declarationId()));
    counting.stream()
        .filter(neighbour -> neighbour == nearest || !limit.holds(neighbour.distanceM()))
        .map(Neighbour::factId)
        .distinct()
        .forEach(factIds::add);
    return new Finding(
            Gate.ISOLATION,
            "",
            nearest.distanceM(),
            Optional.empty(),
            factIds,
            "The nearest foreign pollen is %s, %s m away"
                .formatted(named(nearest), metres(nearest)))
        .against(
            limit,
            "See that the source is destroyed before it sheds, or ask the certification authority"
                + " whether it accepts a shield; failing that the harvest is grain.");
  }

  private static boolean mayMeet(FieldCropDeclared crop, Neighbour neighbour) {
    LocalDate from = crop.getFloweringFrom();
    LocalDate to = crop.getFloweringTo();
    boolean overBefore =
        from != null && neighbour.sheddingTo().map(end -> end.isBefore(from)).orElse(false);
    boolean begunAfter =
        to != null && neighbour.sheddingFrom().map(begin -> begin.isAfter(to)).orElse(false);
    return !overBefore && !begunAfter;
  }

  private static String named(Neighbour neighbour) {
    return neighbour
        .sourceKind()
        .map(kind -> "%s (%s)".formatted(neighbour.source(), kind))
        .orElse(neighbour.source().toString());
  }

  /** Metres to one decimal, rounded down so that a distance just short never reads as enough. */
  private static String metres(Neighbour neighbour) {
    return Wording.number(Math.floor(neighbour.distanceM() * 10) / 10);
  }
}
