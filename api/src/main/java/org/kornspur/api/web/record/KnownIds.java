package org.kornspur.api.web.record;

import jakarta.enterprise.context.RequestScoped;
import jakarta.inject.Inject;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
import org.apache.avro.Schema;
import org.kornspur.api.kafka.RulesInForce;
import org.kornspur.api.query.RequestWords;
import org.kornspur.api.query.VisibleData;
import org.kornspur.api.readmodel.FactReadModel;
import org.kornspur.api.readmodel.SampleIndex;
import org.kornspur.api.readmodel.StandingIndexRow;
import org.kornspur.api.security.Caller;
import org.kornspur.api.security.CurrentCaller;
import org.kornspur.api.security.Permission;
import org.kornspur.api.text.DomainTerms;
import org.kornspur.api.web.form.Field;
import org.kornspur.api.web.form.Field.Option;
import org.kornspur.api.web.form.FormView;
import org.kornspur.contract.HybridDeclared;
import org.kornspur.ingest.contract.Subject;

/**
 * What forms offer while an id is typed: what who asks may see, and what the person typed last. An
 * id that is not among it may be typed all the same.
 */
@RequestScoped
public class KnownIds {
  /** A list that is searched while typing; common practice, no source. */
  private static final int MOST = 400;

  private static final String KNOWN = "known-";
  private static final String LAST = "last-";
  private static final Set<String> KINDS =
      Set.of("lot", "crop", "hybrid", "component", "enterprise", "sample");

  /** Texts that a person types again and again. */
  private static final Set<String> TYPED_AGAIN =
      Set.of("sourceDocument", "samplerAccreditation", "treatment", "fieldId");

  @Inject VisibleData data;
  @Inject FactReadModel facts;
  @Inject RulesInForce rules;
  @Inject RequestWords words;
  @Inject CurrentCaller caller;
  @Inject LastEntries last;

  /** Id of the list that a text of the contract is chosen from; empty where there is none. */
  static String listOf(Schema text, String name) {
    String kind = text.getProp("names");
    if (name.equals("rulebookId")) {
      return KNOWN + "rulebook";
    }
    if (kind != null) {
      return KINDS.contains(kind) ? KNOWN + kind : "";
    }
    return TYPED_AGAIN.contains(name) ? LAST + name : "";
  }

  /** The lists that the fields of a form offer, by their id. */
  Map<String, List<Option>> of(FormView<?> sheet) {
    Map<String, List<Option>> lists = new LinkedHashMap<>();
    sheet
        .fields()
        .map(Field::list)
        .filter(list -> !list.isEmpty())
        .distinct()
        .forEach(list -> lists.put(list, options(list)));
    return lists;
  }

  private List<Option> options(String list) {
    if (list.startsWith(LAST)) {
      return last.of(caller.get().personId(), list.substring(LAST.length())).stream()
          .map(text -> new Option(text, ""))
          .toList();
    }
    return switch (list.substring(KNOWN.length())) {
      case "lot" -> seed(Subject.Kind.LOT);
      case "crop" -> seed(Subject.Kind.CROP);
      case "hybrid" -> hybrids().map(id -> new Option(id, "")).toList();
      case "component" -> components();
      case "enterprise" -> enterprises();
      case "sample" -> samples();
      case "rulebook" ->
          rules.rulebooks().all().stream()
              .map(book -> new Option(book.id(), words.words().rulebook(book)))
              .toList();
      default -> List.of();
    };
  }

  /** The latest harvest first, and of it what is in store. */
  private List<Option> seed(Subject.Kind kind) {
    return data.matching(row -> row.subject().kind() == kind).stream()
        .sorted(
            Comparator.comparing((StandingIndexRow row) -> row.leftKg() <= 0 && isLot(row))
                .thenComparing(KnownIds::year, Comparator.reverseOrder())
                .thenComparing(StandingIndexRow::subject))
        .limit(MOST)
        .map(row -> new Option(row.subject().id(), described(row)))
        .toList();
  }

  private static boolean isLot(StandingIndexRow row) {
    return row.subject().kind() == Subject.Kind.LOT;
  }

  private static int year(StandingIndexRow row) {
    return row.material().map(material -> material.getCropYear()).orElse(0);
  }

  private String described(StandingIndexRow row) {
    DomainTerms terms = words.terms();
    Optional<String> seed =
        row.material()
            .map(
                material ->
                    material.getSeedId()
                        + ", "
                        + terms.category(material.getCategory())
                        + ", "
                        + material.getCropYear());
    Optional<String> left =
        isLot(row) ? Optional.of(words.form().kg(row.leftKg())) : Optional.empty();
    return Stream.of(seed, left, Optional.of(terms.state(row.state())))
        .flatMap(Optional::stream)
        .reduce((one, next) -> one + ", " + next)
        .orElse("");
  }

  private Stream<String> hybrids() {
    return data.values().hybridIds().stream().limit(MOST);
  }

  private List<Option> components() {
    Map<String, String> found = new LinkedHashMap<>();
    hybrids().forEach(hybridId -> addComponents(hybridId, found));
    return found.entrySet().stream()
        .limit(MOST)
        .map(one -> new Option(one.getKey(), one.getValue()))
        .toList();
  }

  private void addComponents(String hybridId, Map<String, String> into) {
    into.putIfAbsent(hybridId, words.terms().seed("F1_SEED"));
    data.countingFacts(Subject.hybrid(hybridId)).stream()
        .filter(HybridDeclared.class::isInstance)
        .map(HybridDeclared.class::cast)
        .flatMap(declared -> declared.getComponents().stream())
        .forEach(
            component ->
                into.putIfAbsent(
                    component.getComponentId(),
                    words.terms().constant("ComponentKind", component.getKind().name())));
  }

  private List<Option> enterprises() {
    Optional<String> own = caller.ifKnown().flatMap(Caller::enterpriseId);
    return facts.enterprises().all().entrySet().stream()
        .filter(
            one ->
                own.filter(one.getKey()::equals).isPresent()
                    || data.sees(Subject.enterprise(one.getKey())))
        .limit(MOST)
        .map(one -> new Option(one.getKey(), one.getValue()))
        .toList();
  }

  /** Those of the laboratory of who asks; of who sees lots, those of the lots. */
  private List<Option> samples() {
    boolean isOfLaboratory =
        caller.ifKnown().filter(one -> one.may(Permission.TEST_SAMPLES)).isPresent();
    List<SampleIndex.Row> seen =
        isOfLaboratory
            ? caller.get().enterpriseId().map(facts.samples()::of).orElse(List.of())
            : facts.samples().all().stream()
                .filter(row -> data.sees(Subject.lot(row.lotId())))
                .toList();
    return seen.stream()
        .sorted(Comparator.comparing(SampleIndex.Row::drawnAt).reversed())
        .limit(MOST)
        .map(
            row -> new Option(row.sampleId(), row.lotId() + ", " + words.form().day(row.drawnAt())))
        .toList();
  }
}
