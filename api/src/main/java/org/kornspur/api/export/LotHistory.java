package org.kornspur.api.export;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.kornspur.api.problem.ApiProblem;
import org.kornspur.api.problem.ExportDetail;
import org.kornspur.api.query.VisibleData;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.dossier.Entry;
import org.kornspur.processors.pedigree.Trace;

/** Gathers the facts of a lot, and of all that it came from. */
@ApplicationScoped
public class LotHistory {

  /** Lots and crops of one history, at most; a lot of the trade has some dozens behind it. */
  private static final int MOST_SUBJECTS = 5_000;

  @Inject EventSearch events;
  @Inject VisibleData data;

  /**
   * Every fact that names the lot or, if asked for, anything that it came from; by time, superseded
   * ones too. Of what the caller may not see nothing is there, and no way leads through it: what
   * another made of the caller's own seed is not told by what is shown behind it.
   *
   * @throws ApiProblem if no fact names the lot, or its ancestors are too many
   */
  List<Entry> of(String lotId, boolean ancestors) {
    Subject lot = Subject.lot(lotId);
    data.require(lot);
    Map<String, Entry> entries = new LinkedHashMap<>();
    add(lot, entries);
    if (entries.isEmpty()) {
      throw data.unknown(lot);
    }
    if (ancestors) {
      Trace trace = Trace.walk(data.pedigree(), lot, Trace.Direction.BACK, MOST_SUBJECTS);
      if (!trace.complete()) {
        throw ApiProblem.refused(new ExportDetail.TooManyAncestors(MOST_SUBJECTS));
      }
      trace.steps().keySet().stream().filter(data::sees).forEach(subject -> add(subject, entries));
    }
    return entries.values().stream().sorted(Entry.BY_TIME_THEN_ID).toList();
  }

  private void add(Subject subject, Map<String, Entry> entries) {
    events
        .history(subject)
        .forEach(entry -> entries.putIfAbsent(entry.header().getFactId(), entry));
  }
}
