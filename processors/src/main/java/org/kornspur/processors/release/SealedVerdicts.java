package org.kornspur.processors.release;

import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.kornspur.contract.SealedLimit;
import org.kornspur.contract.SealedMaterial;
import org.kornspur.contract.SealedValue;
import org.kornspur.contract.SealedVerdict;
import org.kornspur.ingest.statement.StatementJson;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.dossier.InheritedFinding;
import org.kornspur.processors.dossier.Material;
import org.kornspur.processors.standards.Limit;
import org.kornspur.processors.verdict.Measured;
import org.kornspur.processors.verdict.Verdict;

/** What the gates say, in the form that an act keeps of it. */
public final class SealedVerdicts {
  private SealedVerdicts() {}

  /** Own verdicts, then what is inherited. */
  public static List<SealedVerdict> of(Assessment assessment) {
    return Stream.concat(
            assessment.verdicts().stream().map(SealedVerdicts::of),
            assessment.inherited().stream().map(SealedVerdicts::of))
        .toList();
  }

  /** Ids of the facts that a seal over this dossier covers, in order. */
  public static List<String> factIds(Dossier dossier) {
    return dossier.entries().stream()
        .filter(CanonicalDossier::isSealed)
        .map(entry -> entry.header().getFactId())
        .sorted()
        .toList();
  }

  public static SealedMaterial of(Material material) {
    return new SealedMaterial(
        material.hybridId(),
        material.seedId(),
        material.kind().name(),
        material.category(),
        material.cropYear(),
        material.rulebookId());
  }

  private static SealedVerdict of(Verdict verdict) {
    return new SealedVerdict(
        verdict.gate().name(),
        verdict.aspect().isEmpty() ? null : verdict.aspect(),
        null,
        SealedState.of(verdict).name(),
        "",
        StatementJson.write(verdict.findings()),
        verdict.limit().map(SealedVerdicts::of).orElse(null),
        measured(verdict).map(SealedVerdicts::of).orElse(null));
  }

  private static SealedLimit of(Limit limit) {
    return new SealedLimit(limit.sense().name(), limit.value(), limit.unit());
  }

  private static SealedValue of(Measured measured) {
    return new SealedValue(measured.value(), measured.unit());
  }

  private static SealedVerdict of(InheritedFinding trouble) {
    return new SealedVerdict(
        trouble.gate().name(),
        trouble.aspect().isEmpty() ? null : trouble.aspect(),
        trouble.origin().toString(),
        SealedState.of(trouble).name(),
        "",
        StatementJson.write(trouble.findings()),
        null,
        null);
  }

  static Optional<Measured> measured(Verdict verdict) {
    if (verdict instanceof Verdict.Met met) {
      return Optional.of(met.measured());
    }
    return verdict instanceof Verdict.NotMet notMet
        ? Optional.of(notMet.measured())
        : Optional.empty();
  }
}
