package org.kornspur.processors.gates;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.contract.Correction;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.statement.Value.Fact;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.dossier.Entry;
import org.kornspur.processors.finding.Aspect;
import org.kornspur.processors.finding.Evidence;
import org.kornspur.processors.finding.OriginFinding;
import org.kornspur.processors.gates.Findings.GateAspect;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.processors.verdict.Verdict;

/**
 * Corrections that leave open what is so: two of one fact, which would count it twice, and one that
 * is of another kind than what it corrects, as a moisture test of a germination test. They need no
 * rulebook; nothing is fit while one of them stands.
 */
public final class Corrections {
  static final String SEVERAL = "several corrections";
  static final String OTHER_KIND = "corrections of another kind";

  private Corrections() {}

  /** What is owed for such corrections; empty where every correction stands alone. */
  public static List<Verdict> judge(Dossier dossier) {
    List<SpecificRecord> correcting = correcting(dossier);
    return correcting.isEmpty()
        ? List.of()
        : Stream.of(several(correcting), otherKind(dossier, correcting))
            .flatMap(Optional::stream)
            .toList();
  }

  private static Optional<Verdict> several(List<SpecificRecord> correcting) {
    SortedMap<String, List<String>> byCorrected =
        correcting.stream()
            .collect(
                Collectors.groupingBy(
                    fact -> corrected(fact).orElseThrow(),
                    TreeMap::new,
                    Collectors.mapping(FactType::idOf, Collectors.toList())));
    return byCorrected.entrySet().stream()
        .filter(corrections -> corrections.getValue().size() > 1)
        .findFirst()
        .map(
            corrections -> {
              List<String> factIds = corrections.getValue().stream().sorted().toList();
              return owed(
                  SEVERAL,
                  factIds,
                  new OriginFinding.SeveralCorrections(
                      new Fact(corrections.getKey()), Fact.each(factIds)),
                  new Evidence.WithdrawalOfAllButOne());
            });
  }

  private static Optional<Verdict> otherKind(Dossier dossier, List<SpecificRecord> correcting) {
    Map<String, SpecificRecord> facts =
        dossier.entries().stream()
            .map(Entry::fact)
            .collect(Collectors.toMap(FactType::idOf, Function.identity(), (first, same) -> first));
    return correcting.stream()
        .filter(fact -> corrected(fact).map(facts::get).filter(c -> isOther(c, fact)).isPresent())
        .findFirst()
        .map(
            fact -> {
              String corrected = corrected(fact).orElseThrow();
              return owed(
                  OTHER_KIND,
                  List.of(corrected, FactType.idOf(fact)),
                  new OriginFinding.CorrectedByOtherKind(
                      new Fact(corrected),
                      FactType.of(facts.get(corrected)),
                      new Fact(FactType.idOf(fact)),
                      FactType.of(fact)),
                  new Evidence.CorrectionOfItsKind(new Fact(corrected)));
            });
  }

  /** Acts of persons undo each other by rules of their own. */
  private static List<SpecificRecord> correcting(Dossier dossier) {
    return dossier
        .counting()
        .filter(fact -> !FactType.of(fact).isAct())
        .filter(fact -> corrected(fact).isPresent())
        .toList();
  }

  private static boolean isOther(SpecificRecord corrected, SpecificRecord by) {
    return FactType.of(corrected) != FactType.of(by);
  }

  private static Verdict owed(
      String key, List<String> factIds, OriginFinding finding, Evidence evidence) {
    return Findings.of(GateAspect.of(Gate.ORIGIN, key, new Aspect.Corrections()), factIds, finding)
        .owed(evidence);
  }

  private static Optional<String> corrected(SpecificRecord fact) {
    return Optional.ofNullable(FactType.headerOf(fact).getCorrection())
        .map(Correction::getSupersedes);
  }
}
