package org.kornspur.processors.judging;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.SortedSet;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.contract.Correction;
import org.kornspur.contract.Withdrawal;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.contract.SubjectsNamed;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.dossier.Entry;
import org.kornspur.processors.dossier.Report;

/**
 * Previews how standings would change if a fact were recorded now: of the crops and lots it names,
 * or that the fact named which it corrects or takes back. Pure: nothing is written.
 *
 * <p>They are judged as they always are, and so is what they tell each other, and what a laboratory
 * would answer that is asked for the first time. Nobody else is told: descendants and the ground
 * are judged when it is recorded.
 *
 * @param known what is known of a subject now; an empty dossier where nothing is
 */
public record StandingPreview(Judge judge, Function<Subject, Dossier> known) {
  /** From a hybrid or parent to a child, and from a part back to the lot it was split off. */
  private static final int ROUNDS = 3;

  /**
   * A crop or lot.
   *
   * @param before how it stands now; empty where nothing is known of it
   * @param after how it would stand; empty where nothing would be known of it
   */
  public record Change(Subject subject, Optional<Standing> before, Optional<Standing> after) {}

  /**
   * Whether all can be told that a fact of this type changes at what it names. What lies around a
   * crop, and what a hybrid or enterprise tells all others, is not in the dossiers that it names.
   */
  public static boolean tells(FactType type) {
    return switch (type) {
      case FIELD_CROP_DECLARED, POLLEN_SOURCE_SEEN, HYBRID_DECLARED, ENTERPRISE_DECLARED -> false;
      default -> !type.isAct();
    };
  }

  /**
   * How crops and lots would stand, by kind and id.
   *
   * @param fact as it would be recorded, with the proof of who brings it
   * @param replaced the fact that it corrects or takes back; empty where it does neither
   */
  public List<Change> of(SpecificRecord fact, Optional<SpecificRecord> replaced) {
    SortedSet<Subject> named = new TreeSet<>(SubjectsNamed.of(fact));
    replaced.map(SubjectsNamed::of).ifPresent(named::addAll);
    Map<Subject, Dossier> now = new TreeMap<>();
    Map<Subject, Dossier> then = new TreeMap<>();
    for (Subject subject : named) {
      Dossier dossier = known.apply(subject);
      now.put(subject, dossier);
      then.put(subject, with(dossier, fact, replaced));
    }
    Map<Subject, Outcome> outcomes = Map.of();
    for (int round = 0; round < ROUNDS; round++) {
      outcomes = judged(then);
      List<Report> told = outcomes.values().stream().flatMap(o -> o.reports().stream()).toList();
      List<Report> answers = answers(told);
      Set<String> tellers =
          Stream.concat(named.stream().map(Subject::toString), answers.stream().map(Report::sender))
              .collect(Collectors.toSet());
      List<Report> all = Stream.concat(told.stream(), answers.stream()).toList();
      then.replaceAll((subject, dossier) -> told(dossier, tellers, all));
    }
    Map<Subject, Outcome> last = outcomes;
    return named.stream()
        .filter(subject -> subject.kind().isJudged())
        .map(
            subject ->
                new Change(
                    subject,
                    judge.judge(now.get(subject)).standing(),
                    last.get(subject).standing()))
        .toList();
  }

  private Map<Subject, Outcome> judged(Map<Subject, Dossier> dossiers) {
    Map<Subject, Outcome> outcomes = new HashMap<>();
    dossiers.forEach((subject, dossier) -> outcomes.put(subject, judge.judge(dossier)));
    return outcomes;
  }

  /** What enterprises that are asked say; of all that ever asked them only these are answered. */
  private List<Report> answers(List<Report> told) {
    return told.stream()
        .filter(Report.AsksLaboratory.class::isInstance)
        .collect(Collectors.groupingBy(Report::receiver, TreeMap::new, Collectors.toList()))
        .entrySet()
        .stream()
        .map(
            asked ->
                new Dossier(
                    asked.getKey(), known.apply(asked.getKey()).entries(), asked.getValue()))
        .flatMap(laboratory -> judge.judge(laboratory).reports().stream())
        .toList();
  }

  /** What the tellers said before is forgotten: each says all that it has to say. */
  private static Dossier told(Dossier dossier, Set<String> tellers, List<Report> all) {
    return new Dossier(
        dossier.subject(),
        dossier.entries(),
        Stream.concat(
                dossier.reports().stream().filter(report -> !tellers.contains(report.sender())),
                all.stream().filter(report -> report.receiver().equals(dossier.subject())))
            .toList());
  }

  private static Dossier with(
      Dossier dossier, SpecificRecord fact, Optional<SpecificRecord> replaced) {
    String factId = FactType.idOf(fact);
    Optional<String> replacedId = replaced.map(FactType::idOf);
    List<Entry> entries = new ArrayList<>();
    for (Entry entry : dossier.entries()) {
      String id = FactType.idOf(entry.fact());
      if (replacedId.filter(id::equals).isPresent()) {
        entries.add(new Entry(entry.fact(), Optional.of(by(fact))));
      } else if (fact instanceof Withdrawal && isReplacedBy(entry, replacedId)) {
        // who takes back a correction has what it corrected count again
        entries.add(new Entry(entry.fact(), Optional.empty()));
      } else if (!id.equals(factId)) {
        entries.add(entry);
      }
    }
    if (SubjectsNamed.of(fact).contains(dossier.subject())) {
      entries.add(new Entry(fact, Optional.empty()));
    }
    return new Dossier(dossier.subject(), entries, dossier.reports());
  }

  private static boolean isReplacedBy(Entry entry, Optional<String> factId) {
    return factId.isPresent() && entry.superseded().map(Entry.Superseded::byFactId).equals(factId);
  }

  private static Entry.Superseded by(SpecificRecord fact) {
    String reason =
        fact instanceof Withdrawal withdrawal
            ? withdrawal.getReason()
            : Optional.ofNullable(FactType.headerOf(fact).getCorrection())
                .map(Correction::getReason)
                .orElse("");
    return new Entry.Superseded(
        FactType.idOf(fact),
        reason,
        Optional.of(FactType.headerOf(fact).getRecordedBy()),
        Optional.of(FactType.headerOf(fact).getRecordedAt()),
        Optional.of(FactType.of(fact)));
  }
}
