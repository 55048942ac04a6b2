package org.kornspur.api.security.visibility;

import java.util.Collection;
import java.util.List;
import java.util.stream.Stream;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.contract.Conditioning;
import org.kornspur.contract.Dispatch;
import org.kornspur.contract.FieldCropDeclared;
import org.kornspur.contract.FloweringSeen;
import org.kornspur.contract.Harvest;
import org.kornspur.contract.LotMass;
import org.kornspur.contract.LotMerge;
import org.kornspur.contract.LotSplit;
import org.kornspur.contract.Sowing;
import org.kornspur.ingest.contract.Subject;

/** Which crops and lots a fact of a grower makes, and which it takes from. */
final class SeedMovements {

  private SeedMovements() {}

  /** Crops and lots that begin with this fact. */
  static List<Subject> made(SpecificRecord fact) {
    if (fact instanceof FieldCropDeclared crop) {
      return List.of(Subject.crop(crop.getCropId()));
    }
    if (fact instanceof Harvest harvest) {
      return List.of(Subject.lot(harvest.getLotId()));
    }
    if (fact instanceof Conditioning conditioning) {
      return lots(conditioning.getOutputs());
    }
    if (fact instanceof LotSplit split) {
      return lots(split.getParts());
    }
    return fact instanceof LotMerge merge ? List.of(Subject.lot(merge.getIntoLotId())) : List.of();
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
    if (fact instanceof Sowing sowing) {
      return lots(sowing.getSown());
    }
    if (fact instanceof Conditioning conditioning) {
      return lots(conditioning.getInputs());
    }
    if (fact instanceof LotSplit split) {
      return List.of(Subject.lot(split.getFromLotId()));
    }
    if (fact instanceof LotMerge merge) {
      return lots(merge.getInputs());
    }
    return fact instanceof Dispatch dispatch
        ? List.of(Subject.lot(dispatch.getLotId()))
        : List.of();
  }

  private static List<Subject> lots(Collection<LotMass> masses) {
    return masses.stream().map(LotMass::getLotId).map(Subject::lot).toList();
  }
}
