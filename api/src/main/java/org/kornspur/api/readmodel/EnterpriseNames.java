package org.kornspur.api.readmodel;

import java.time.Instant;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.ConcurrentMap;
import java.util.stream.Collectors;
import org.kornspur.contract.EnterpriseDeclared;

/** The name of each enterprise, as it was recorded last. */
public final class EnterpriseNames {
  private record Recorded(String name, Instant at) {}

  private final ConcurrentMap<String, Recorded> names = new ConcurrentHashMap<>();

  void put(EnterpriseDeclared declared) {
    Recorded now = new Recorded(declared.getName(), declared.getHeader().getRecordedAt());
    names.merge(
        declared.getEnterpriseId(),
        now,
        (held, later) -> later.at().isBefore(held.at()) ? held : later);
  }

  void clear() {
    names.clear();
  }

  /** The name of an enterprise; empty where none is recorded, or it is not read here yet. */
  public Optional<String> of(String enterpriseId) {
    return Optional.ofNullable(names.get(enterpriseId)).map(Recorded::name);
  }

  /** Every enterprise of which a name is read, by id. */
  public SortedMap<String, String> all() {
    SortedMap<String, String> all = new TreeMap<>();
    names.forEach((id, recorded) -> all.put(id, recorded.name()));
    return all;
  }

  /** The enterprises with this part in their name, in any case. */
  public Set<String> named(String part) {
    String wanted = SearchIndex.folded(part);
    return names.entrySet().stream()
        .filter(one -> SearchIndex.folded(one.getValue().name()).contains(wanted))
        .map(Map.Entry::getKey)
        .collect(Collectors.toSet());
  }
}
