package org.kornspur.api.readmodel;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.kornspur.contract.Dispatch;

/**
 * Which dispatch a label number stands on. A dispatch that names two numbers of one series names
 * the first and the last (common practice, no source); what lies between is found too, and is said
 * to lie between.
 *
 * <p>Corrections are not followed here: whether a dispatch still counts is told by the dossier of
 * its lot.
 */
public final class LabelIndex {
  private static final Pattern SERIES = Pattern.compile("(.*?)(\\d{1,18})");

  private final Map<String, List<Place>> byNumber = new HashMap<>();
  private final Map<String, TreeMap<Long, List<Run>>> bySeries = new HashMap<>();

  /** A dispatch. */
  public record Place(String lotId, String factId) {}

  /**
   * A dispatch that was found.
   *
   * @param named false where the number lies between the first and the last of it
   */
  public record Found(Place place, boolean named) {}

  private record Run(long last, Place place) {}

  private record Numbered(String series, long number) {

    static Optional<Numbered> of(String label) {
      Matcher parts = SERIES.matcher(label);
      return parts.matches()
          ? Optional.of(
              new Numbered(
                  parts.group(1) + "#" + parts.group(2).length(), Long.parseLong(parts.group(2))))
          : Optional.empty();
    }
  }

  /** Takes the label numbers of a dispatch; the same dispatch twice counts once. */
  public synchronized void put(Dispatch dispatch) {
    Place place = new Place(dispatch.getLotId(), dispatch.getHeader().getFactId());
    List<String> labels =
        dispatch.getLabelNumbers().stream().map(LabelIndex::plain).distinct().toList();
    for (String label : labels) {
      List<Place> places = byNumber.computeIfAbsent(label, number -> new ArrayList<>(1));
      if (!places.contains(place)) {
        places.add(place);
      }
    }
    if (labels.size() == 2) {
      Optional<Numbered> first = Numbered.of(labels.get(0));
      Optional<Numbered> last = Numbered.of(labels.get(1));
      if (first.isPresent()
          && last.isPresent()
          && first.get().series().equals(last.get().series())
          && first.get().number() < last.get().number()) {
        Run run = new Run(last.get().number(), place);
        List<Run> runs =
            bySeries
                .computeIfAbsent(first.get().series(), series -> new TreeMap<>())
                .computeIfAbsent(first.get().number(), number -> new ArrayList<>(1));
        if (!runs.contains(run)) {
          runs.add(run);
        }
      }
    }
  }

  /** Forgets all numbers. */
  synchronized void clear() {
    byNumber.clear();
    bySeries.clear();
  }

  /** Dispatches that name a number; where none does, those that it lies between. */
  public synchronized List<Found> find(String labelNumber) {
    String label = plain(labelNumber);
    List<Place> named = byNumber.getOrDefault(label, List.of());
    if (!named.isEmpty()) {
      return named.stream().map(place -> new Found(place, true)).toList();
    }
    return Numbered.of(label)
        .map(
            numbered ->
                bySeries
                    .getOrDefault(numbered.series(), new TreeMap<>())
                    .headMap(numbered.number(), true)
                    .values()
                    .stream()
                    .flatMap(List::stream)
                    .filter(run -> run.last() >= numbered.number())
                    .map(run -> new Found(run.place(), false))
                    .toList())
        .orElse(List.of());
  }

  /** Numbers held. */
  public synchronized int size() {
    return byNumber.size();
  }

  private static String plain(String label) {
    return label.replaceAll("\\s+", "").toUpperCase(Locale.ROOT);
  }
}
