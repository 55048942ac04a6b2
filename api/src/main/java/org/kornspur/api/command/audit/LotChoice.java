package org.kornspur.api.command.audit;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.kornspur.api.query.VisibleData;
import org.kornspur.api.readmodel.StandingIndexRow;
import org.kornspur.ingest.contract.Subject;

/**
 * Which lots a person asks for.
 *
 * @param ids these alone; where there are none, all that the caller sees
 * @param cropYear of this year of harvest alone
 * @param holder of this enterprise alone
 * @param draw a random sample of them; all where there is none
 */
public record LotChoice(
    List<String> ids,
    Optional<Integer> cropYear,
    Optional<String> holder,
    Optional<SampleDraw> draw) {

  /** Lots that one pack holds at most. */
  public static final int MOST_LOTS = 100;

  /** Ids as people write lists of them: one a line, or with commas, semicolons or blanks. */
  public static List<String> ids(String text) {
    return Stream.of(text.split("[\\s,;]+", -1)).filter(id -> !id.isEmpty()).distinct().toList();
  }

  /** Whether anything is asked for. */
  public boolean isAny() {
    return !ids.isEmpty() || cropYear.isPresent() || holder.isPresent() || draw.isPresent();
  }

  /**
   * What it comes to.
   *
   * @param lots in the order in which they were drawn; by id where none was
   * @param among how many lots it was chosen among
   * @param unknown ids that name no lot that the caller sees
   */
  public record Chosen(List<StandingIndexRow> lots, int among, List<String> unknown) {

    /** Whether it is no more than a pack holds. */
    public boolean fits() {
      return lots.size() <= MOST_LOTS;
    }
  }

  /** The lots as the data stand now. */
  public Chosen in(VisibleData data) {
    Set<String> named = Set.copyOf(ids);
    List<StandingIndexRow> rows =
        data.matching(
            row ->
                row.subject().kind() == Subject.Kind.LOT
                    && (named.isEmpty() || named.contains(row.subject().id()))
                    && holder.map(one -> row.holder().filter(one::equals).isPresent()).orElse(true)
                    && cropYear.map(year -> isOf(year, row)).orElse(true));
    Set<String> unknown = new TreeSet<>(named);
    rows.forEach(row -> unknown.remove(row.subject().id()));
    return new Chosen(drawn(rows), rows.size(), List.copyOf(unknown));
  }

  private static boolean isOf(int year, StandingIndexRow row) {
    return row.material().filter(seed -> seed.getCropYear() == year).isPresent();
  }

  private List<StandingIndexRow> drawn(List<StandingIndexRow> rows) {
    if (draw.isEmpty()) {
      return rows;
    }
    Map<String, StandingIndexRow> byId =
        rows.stream().collect(Collectors.toMap(row -> row.subject().id(), Function.identity()));
    return draw.get().of(byId.keySet()).stream().map(byId::get).toList();
  }
}
