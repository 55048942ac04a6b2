package org.kornspur.processors.gates;

import java.util.Collections;
import java.util.List;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import org.kornspur.contract.Blend;
import org.kornspur.contract.ShareBasis;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.dossier.Material;
import org.kornspur.processors.dossier.Report;

/**
 * What a technical mixture tells the lots that are made of it: no fact names those together with
 * the hybrid, so that the hybrid does not know of them.
 */
public final class MixtureReport {

  private MixtureReport() {}

  /** Empty for what is no technical mixture. */
  public static Optional<Report.Mixture> of(Dossier dossier) {
    return dossier
        .material()
        .filter(material -> material.kind() == Material.Kind.TECHNICAL_MIXTURE)
        .map(
            material ->
                new Report.Mixture(
                    dossier.schemes(), Collections.unmodifiableSortedMap(sharesToTell(dossier))));
  }

  private static SortedMap<ShareBasis, Double> sharesToTell(Dossier dossier) {
    List<Blend> blends =
        dossier.facts(Blend.class).stream()
            .filter(blend -> Subject.lot(blend.getBlendLotId()).equals(dossier.subject()))
            .toList();
    if (blends.isEmpty()) {
      return shares(dossier);
    }
    SortedMap<ShareBasis, Double> shares = new TreeMap<>();
    if (blends.stream().map(FactType::dayOf).distinct().count() > 1) {
      return shares; // a part may be of what was mixed first
    }
    MixedParts parts = new MixedParts(dossier, blends);
    for (ShareBasis basis : ShareBasis.values()) {
      parts
          .pollinatorShare(basis)
          .filter(share -> parts.inDoubt(basis).isEmpty())
          .ifPresent(share -> shares.put(basis, share.share()));
    }
    return shares;
  }

  /** Shares that the lot told off which this one was split: it is the same mixture. */
  static SortedMap<ShareBasis, Double> shares(Dossier part) {
    return SeedLot.unsplit(part)
        .flatMap(Report.FromParent::mixture)
        .map(Report.Mixture::pollinatorShares)
        .orElseGet(Collections::emptySortedMap);
  }
}
