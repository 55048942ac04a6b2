package org.kornspur.api.command.table;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.Optional;
import org.kornspur.api.kafka.NotReady;
import org.kornspur.api.kafka.ProcessorsClient;
import org.kornspur.api.readmodel.ReadModel;
import org.kornspur.contract.FieldCropDeclared;
import org.kornspur.contract.GeoPoint;
import org.kornspur.ingest.contract.Subject;

/** Where the fields of this site lie, roughly: to tell whether a file has latitude first. */
@ApplicationScoped
class FieldLocationHint {
  /** One is enough; more are asked where a crop has no declaration yet. */
  private static final int ASKED = 5;

  @Inject ReadModel readModel;

  // asks for crops that the sender may not see: no more of them is told than that a field is far
  // off
  @Inject ProcessorsClient processors;

  /** A corner of a field on record; empty where there is none, or it cannot be told now. */
  Optional<GeoPoint> place() {
    try {
      return readModel
          .standings()
          .matching(row -> row.subject().kind() == Subject.Kind.CROP)
          .stream()
          .limit(ASKED)
          .map(row -> processors.dossier(row.subject()))
          .flatMap(crop -> crop.crop().stream())
          .map(FieldCropDeclared::getOutline)
          .map(outline -> outline.get(0))
          .findFirst();
    } catch (NotReady notTold) {
      return Optional.empty();
    }
  }
}
