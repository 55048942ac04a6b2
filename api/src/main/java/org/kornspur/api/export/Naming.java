package org.kornspur.api.export;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import org.kornspur.api.export.identity.Gtin;
import org.kornspur.api.export.identity.Identifiers;
import org.kornspur.api.readmodel.ReadModel;
import org.kornspur.api.readmodel.StandingRow;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.standing.SeedMaterial;

/** How this site names things outside, by its settings and by what its lots are. */
@ApplicationScoped
public class Naming {
  private static final String F1_SEED = "F1_SEED";

  private final ReadModel readModel;
  private final Map<String, Gtin> gtinByHybrid = new TreeMap<>();
  private final Identifiers identifiers;

  /**
   * @throws IllegalArgumentException if a GTIN in the settings is none, or none of this company
   */
  @Inject
  public Naming(ExportSettings settings, ReadModel readModel) {
    this.readModel = readModel;
    settings
        .gtin()
        .forEach((hybrid, digits) -> gtinByHybrid.put(hybrid, checked(hybrid, digits, settings)));
    this.identifiers = new Identifiers(settings.publicAddress(), this::gtinOfLot);
  }

  private static Gtin checked(String hybrid, String digits, ExportSettings settings) {
    Gtin gtin = new Gtin(digits);
    settings
        .gs1CompanyPrefix()
        .filter(prefix -> !gtin.isUnder(prefix))
        .ifPresent(
            prefix -> {
              throw new IllegalArgumentException(
                  "kornspur.gtin of %s is %s and not under the company prefix %s; correct one of them"
                      .formatted(hybrid, digits, prefix));
            });
    return gtin;
  }

  public Identifiers identifiers() {
    return identifiers;
  }

  /** GTIN of a lot: that of its hybrid, where it is F1 seed. */
  public Optional<Gtin> gtinOfLot(String lotId) {
    if (gtinByHybrid.isEmpty()) {
      return Optional.empty();
    }
    return readModel
        .standings()
        .row(Subject.lot(lotId))
        .flatMap(StandingRow::material)
        .filter(material -> material.getKind().equals(F1_SEED))
        .map(SeedMaterial::getHybridId)
        .map(gtinByHybrid::get);
  }
}
