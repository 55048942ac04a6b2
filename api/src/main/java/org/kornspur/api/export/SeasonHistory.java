package org.kornspur.api.export;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Predicate;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.api.query.VisibleData;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.contract.SubjectsNamed;
import org.kornspur.processors.dossier.Entry;

/** Gathers the facts of a season: of its crops and lots, and the declarations that they name. */
@ApplicationScoped
public class SeasonHistory {
  private static final Set<FactType> DECLARATIONS =
      EnumSet.of(
          FactType.ENTERPRISE_DECLARED, FactType.HYBRID_DECLARED, FactType.POLLEN_SOURCE_SEEN);

  @Inject EventSearch events;
  @Inject VisibleData data;

  /** Every fact of the season that the caller may see, by time, superseded ones too. */
  List<SpecificRecord> of(int cropYear) {
    Map<String, Entry> entries = new LinkedHashMap<>();
    data.matching(row -> row.material().filter(m -> m.getCropYear() == cropYear).isPresent())
        .forEach(row -> add(row.subject(), fact -> true, entries));
    Set<Subject> named = new TreeSet<>();
    entries.values().forEach(entry -> named.addAll(SubjectsNamed.of(entry.fact())));
    named.stream()
        .filter(subject -> !subject.kind().isJudged() && data.sees(subject))
        .forEach(
            subject -> add(subject, fact -> DECLARATIONS.contains(FactType.of(fact)), entries));
    return entries.values().stream()
        .sorted(Entry.BY_TIME_THEN_ID)
        .<SpecificRecord>map(Entry::fact)
        .toList();
  }

  private void add(Subject subject, Predicate<SpecificRecord> wanted, Map<String, Entry> entries) {
    events.history(subject).stream()
        .filter(entry -> wanted.test(entry.fact()))
        .forEach(entry -> entries.putIfAbsent(entry.header().getFactId(), entry));
  }
}
