package org.kornspur.api.security.visibility;

import jakarta.enterprise.context.RequestScoped;
import java.util.Collection;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/**
 * What the caller wrote into the address of this request. What the resource uses may be repeated in
 * the answer. All else could be a guess: neither the page's own text may confirm it nor may its
 * echo, so it is taken out whether there is such an id or not.
 */
@RequestScoped
public class RequestEcho {
  private final Map<String, List<String>> usedQuery = new HashMap<>();
  private final Set<String> ignored = new HashSet<>();
  private Set<String> path;

  /**
   * To be told once a resource is found.
   *
   * @param inPath values of its path parameters
   * @param matrix what stands in the path after semicolons; no resource reads it
   * @param query parameters that were given, by name
   * @param acceptedNames names of the parameters that it reads
   */
  public void remember(
      Collection<String> inPath,
      Collection<String> matrix,
      Map<String, List<String>> query,
      Set<String> acceptedNames) {
    path = Set.copyOf(inPath);
    ignored.addAll(matrix);
    query.forEach(
        (name, values) -> {
          if (acceptedNames.contains(name)) {
            usedQuery.put(name, values);
          } else {
            ignored.add(name);
            ignored.addAll(values);
          }
        });
  }

  /** A parameter that is read turned out to be wrong, and reads as if it were not given. */
  public void isWrong(String name) {
    Optional.ofNullable(usedQuery.remove(name)).ifPresent(ignored::addAll);
  }

  /** Values that the resource uses; empty where no resource was found. */
  Optional<Set<String>> used() {
    return Optional.ofNullable(path)
        .map(
            inPath -> {
              Set<String> all = new HashSet<>(inPath);
              usedQuery.values().forEach(all::addAll);
              return all;
            });
  }

  /** Texts that nothing uses. */
  Set<String> ignored() {
    return Set.copyOf(ignored);
  }
}
