package org.kornspur.api.web.record;

import jakarta.enterprise.context.ApplicationScoped;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import org.kornspur.api.web.form.FormView;
import org.kornspur.ingest.contract.FactType;

/**
 * What each person recorded last by a form, to be offered again. It is a help while typing and no
 * record: it is held in memory alone, of the persons who recorded last, and is gone after a
 * restart.
 */
@ApplicationScoped
public class LastEntries {
  private static final int MOST_PERSONS = 500;
  private static final int MOST_FORMS = 40;

  /** By person, the latest last; of each the latest values of each type, by field. */
  private final Map<String, Map<FactType, Map<String, String>>> byPerson = bounded(MOST_PERSONS);

  /** Keeps what a person recorded. */
  synchronized void keep(String personId, FormView<ContractForm> recorded) {
    Map<String, String> values = new LinkedHashMap<>();
    recorded.filled().forEach(field -> values.put(field.name(), field.value()));
    byPerson
        .computeIfAbsent(personId, person -> bounded(MOST_FORMS))
        .put(recorded.form().type(), values);
  }

  /** What a person recorded last of a type, by field. */
  synchronized Optional<Map<String, String>> of(String personId, FactType type) {
    return Optional.ofNullable(byPerson.get(personId)).map(forms -> forms.get(type));
  }

  /** What a person typed last into fields of this name, whatever the form; the latest first. */
  synchronized List<String> of(String personId, String field) {
    List<Map<String, String>> forms =
        new ArrayList<>(Optional.ofNullable(byPerson.get(personId)).orElse(Map.of()).values());
    return Stream.iterate(forms.size() - 1, at -> at >= 0, at -> at - 1)
        .map(forms::get)
        .flatMap(values -> Stream.of(values.get(field), values.get("header." + field)))
        .filter(value -> value != null)
        .distinct()
        .toList();
  }

  private static <K, V> Map<K, V> bounded(int most) {
    return new LinkedHashMap<>(16, 0.75f, true) {
      @Override
      protected boolean removeEldestEntry(Map.Entry<K, V> eldest) {
        return size() > most;
      }
    };
  }
}
