package org.kornspur.api.readmodel;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.function.BiConsumer;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.contract.Dispatch;
import org.kornspur.contract.FieldCropDeclared;
import org.kornspur.contract.PostControlResult;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.contract.SubjectsNamed;

/**
 * What facts say of crops and lots that people search by, beside their ids. A fact that was
 * corrected or taken back is found too: who searches for it wants to see what became of it.
 */
public final class SearchIndex {

  /** What a text is. */
  public enum Kind {
    /** The field as its grower calls it. */
    FIELD,
    SAMPLE,
    /** Number of a control plot, or of a test in a laboratory. */
    PLOT,
    /** On the bags of a dispatch. */
    LABEL,
    /** The customer of a dispatch, by id. */
    CUSTOMER,
    /** The paper or file behind a fact. */
    DOCUMENT,
    /** Who recorded a fact, by id. */
    PERSON
  }

  private static final String SAMPLE_FIELD = "sampleId";

  /** The text as it was written, with the crops and lots that it stands for. */
  private record Meant(String text, Set<Subject> subjects) {}

  private final Map<Kind, Map<String, Meant>> byKind = new EnumMap<>(Kind.class);
  private final Map<Subject, Subject> subjects = new HashMap<>();

  /** Takes a fact; the same fact twice counts once. */
  synchronized void put(SpecificRecord fact) {
    List<Subject> seed =
        SubjectsNamed.of(fact).stream()
            .filter(subject -> subject.kind().isJudged())
            .map(subject -> subjects.computeIfAbsent(subject, same -> same))
            .toList();
    if (seed.isEmpty()) {
      return;
    }
    var header = FactType.headerOf(fact);
    add(Kind.DOCUMENT, header.getSourceDocument(), seed);
    add(Kind.PERSON, header.getRecordedBy(), seed);
    FactType.text(fact, SAMPLE_FIELD).ifPresent(sample -> add(Kind.SAMPLE, sample, seed));
    if (fact instanceof FieldCropDeclared declared) {
      add(Kind.FIELD, declared.getFieldId(), seed);
    } else if (fact instanceof PostControlResult result) {
      add(Kind.PLOT, result.getPlotOrTestId(), seed);
    } else if (fact instanceof Dispatch dispatch) {
      add(Kind.CUSTOMER, dispatch.getCustomerId(), seed);
      dispatch.getLabelNumbers().forEach(label -> add(Kind.LABEL, label, seed));
    }
  }

  /** Forgets all facts. */
  synchronized void clear() {
    byKind.clear();
    subjects.clear();
  }

  /**
   * Every text of these kinds that has a part in it, with each crop or lot that it stands for.
   *
   * @param part in any case
   * @param found takes the text as it was written, and a crop or lot
   */
  public void find(Kind kind, String part, BiConsumer<String, Subject> found) {
    String wanted = folded(part);
    List<Meant> all = new ArrayList<>();
    synchronized (this) {
      byKind
          .getOrDefault(kind, Map.of())
          .forEach(
              (text, meant) -> {
                if (text.contains(wanted)) {
                  all.add(new Meant(meant.text(), Set.copyOf(meant.subjects())));
                }
              });
    }
    all.forEach(meant -> meant.subjects().forEach(subject -> found.accept(meant.text(), subject)));
  }

  /** A text as it is compared, in whatever case it was written. */
  public static String folded(String text) {
    return text.toLowerCase(Locale.ROOT);
  }

  private void add(Kind kind, String text, List<Subject> seed) {
    byKind
        .computeIfAbsent(kind, one -> new HashMap<>())
        .computeIfAbsent(folded(text), one -> new Meant(text, new HashSet<>(2)))
        .subjects()
        .addAll(seed);
  }
}
