package org.kornspur.processors.judging;

import java.util.List;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.kornspur.contract.ComponentKind;
import org.kornspur.contract.HybridDeclared;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.contract.SubjectsNamed;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.dossier.Report;

/** What a hybrid tells every crop and lot whose facts name it. */
final class HybridMasterData {

  private HybridMasterData() {}

  /** A correction that waits for confirmation is told too: until then neither can be relied on. */
  static List<Report> reportsOf(Dossier hybrid) {
    List<Report.Scheme> schemes =
        Stream.concat(
                hybrid.facts(HybridDeclared.class).stream(),
                hybrid.awaiting(HybridDeclared.class).stream())
            .map(HybridMasterData::scheme)
            .toList();
    return hybrid
        .counting()
        .flatMap(fact -> SubjectsNamed.of(fact).stream())
        .filter(subject -> subject.kind().isJudged())
        .distinct()
        .sorted()
        .<Report>map(made -> new Report.FromHybrid(hybrid.subject(), made, schemes))
        .toList();
  }

  private static Report.Scheme scheme(HybridDeclared declared) {
    SortedMap<String, ComponentKind> components = new TreeMap<>();
    declared
        .getComponents()
        .forEach(component -> components.put(component.getComponentId(), component.getKind()));
    return new Report.Scheme(
        declared.getHybridId(),
        components,
        declared.getCrosses().stream()
            .map(
                cross ->
                    new Report.Crossing(
                        cross.getSeedComponentId(),
                        cross.getFemaleComponentId(),
                        cross.getPollenComponentId()))
            .toList(),
        declared.getPollinatorSharePercent(),
        declared.getShareBasis(),
        declared.getTolerancePercentPoints(),
        declared.getHeader().getFactId(),
        Optional.of(FactType.dayOf(declared)));
  }
}
