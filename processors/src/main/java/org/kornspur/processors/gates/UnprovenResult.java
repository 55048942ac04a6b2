package org.kornspur.processors.gates;

import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.contract.Sampling;
import org.kornspur.contract.TestKind;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.statement.Value.Fact;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.dossier.LaboratoryResults;
import org.kornspur.processors.finding.BasisFinding;
import org.kornspur.processors.finding.Evidence;
import org.kornspur.processors.finding.Finding;
import org.kornspur.processors.standards.Rulebook;

/**
 * A result that proves nothing good of a lot.
 *
 * @param factId the result
 * @param finding why
 * @param evidence what would prove something
 */
record UnprovenResult(String factId, Finding finding, Evidence evidence) {

  /** Those of one kind. */
  static List<UnprovenResult> in(Dossier dossier, Rulebook rulebook, FactType type) {
    List<SpecificRecord> results =
        dossier.counting().filter(fact -> FactType.of(fact) == type).toList();
    return Stream.concat(
            results.stream().flatMap(result -> ofLaboratory(dossier, result).stream()),
            ofOtherSamples(dossier, rulebook, results))
        .toList();
  }

  static Optional<UnprovenResult> ofLaboratory(Dossier dossier, SpecificRecord result) {
    if (LaboratoryResults.isDeclared(dossier, result)) {
      return Optional.empty();
    }
    TestKind kind = LaboratoryResults.kindOf(result).orElseThrow();
    Optional<Subject> laboratory = LaboratoryResults.laboratoryOf(result);
    Fact fact = new Fact(FactType.idOf(result));
    return Optional.of(
        new UnprovenResult(
            FactType.idOf(result),
            laboratory.isPresent()
                ? new BasisFinding.LaboratoryNotDeclared(
                    fact, laboratory.get(), kind, FactType.dayOf(result))
                : new BasisFinding.NoLaboratory(fact, kind),
            new Evidence.DeclaredLaboratory(kind)));
  }

  /**
   * Where one result is of a sample that was drawn well, results of other samples add nothing to
   * it. Where none is, the gate of sampling says so.
   */
  private static Stream<UnprovenResult> ofOtherSamples(
      Dossier dossier, Rulebook rulebook, List<SpecificRecord> results) {
    List<Sampling> drawn = SamplingGate.good(dossier, rulebook);
    return results.stream().anyMatch(result -> SamplingGate.isOfOne(drawn, result))
        ? results.stream()
            .filter(result -> !SamplingGate.isOfOne(drawn, result))
            .flatMap(
                result ->
                    SamplingGate.sampleOf(result)
                        .map(sample -> ofOtherSample(result, sample))
                        .stream())
        : Stream.empty();
  }

  static UnprovenResult ofOtherSample(SpecificRecord result, String sample) {
    return new UnprovenResult(
        FactType.idOf(result),
        new BasisFinding.OfOtherSample(new Fact(FactType.idOf(result)), sample),
        new Evidence.TestsOfDrawnSample(List.of(FactType.of(result))));
  }
}
