package org.kornspur.api.security.visibility;

import java.util.List;
import java.util.stream.Stream;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.contract.FieldCropDeclared;
import org.kornspur.contract.FloweringSeen;
import org.kornspur.contract.Harvest;
import org.kornspur.contract.Sowing;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.contract.Movement;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.balance.MassFlow;
import org.kornspur.processors.balance.MassFlow.Direction;

/** Which crops and lots a fact of a grower makes, and which it takes from. */
final class SeedMovements {

  private SeedMovements() {}

  /** Crops and lots that begin with this fact. */
  static List<Subject> made(SpecificRecord fact) {
    return fact instanceof FieldCropDeclared crop
        ? List.of(Subject.crop(crop.getCropId()))
        : lots(fact, Direction.IN);
  }

  /**
   * Crops and lots that seed goes into. What another makes of seed that he bought is his, how much
   * of it he took included.
   */
  static List<Subject> endsIn(SpecificRecord fact) {
    return Stream.concat(made(fact).stream(), workedOn(fact).stream()).toList();
  }

  /** Crops that something is done on, or of which a grower tells what was seen. */
  static List<Subject> workedOn(SpecificRecord fact) {
    if (fact instanceof Sowing sowing) {
      return List.of(Subject.crop(sowing.getCropId()));
    }
    if (fact instanceof FloweringSeen seen) {
      return List.of(Subject.crop(seen.getCropId()));
    }
    return fact instanceof Harvest harvest ? List.of(Subject.crop(harvest.getCropId())) : List.of();
  }

  /** Lots that seed is taken out of. */
  static List<Subject> takenFrom(SpecificRecord fact) {
    return lots(fact, Direction.OUT);
  }

  private static List<Subject> lots(SpecificRecord fact, Direction direction) {
    return isOfGrowers(FactType.of(fact))
        ? MassFlow.of(fact).stream()
            .filter(flow -> flow.direction() == direction)
            .map(flow -> Subject.lot(flow.lotId()))
            .toList()
        : List.of();
  }

  /** Whether growers bring it; of mixtures, which quality makes, nothing is told here. */
  private static boolean isOfGrowers(FactType type) {
    return type.movement().filter(how -> how != Movement.MIXED).isPresent();
  }
}
