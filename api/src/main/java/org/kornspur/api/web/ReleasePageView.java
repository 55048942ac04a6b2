package org.kornspur.api.web;

import java.util.List;
import java.util.Optional;
import org.kornspur.api.query.view.MaterialView;

/**
 * What the release table shows.
 *
 * @param action address that the form is sent to
 * @param severalAtOnce whether several lots may be chosen; else each is signed on its own page
 * @param twoPersons whether a second person must sign too
 * @param caution what to mind before signing
 * @param done what became of the lots that were chosen; empty before anything was sent
 * @param refusals why nothing was signed, each in a sentence
 * @param reason as typed before
 * @param meaning as typed before
 */
public record ReleasePageView(
    List<Line> lines,
    String action,
    boolean severalAtOnce,
    boolean twoPersons,
    String caution,
    Optional<Done> done,
    List<String> refusals,
    String reason,
    String meaning) {

  /** Lines that can be chosen. */
  public long choices() {
    return lines.stream().filter(line -> line.whyNot().isEmpty()).count();
  }

  /**
   * A lot.
   *
   * @param choice seal and id, as the form sends them
   * @param material empty while its origin is unknown
   * @param whyNot why it cannot be released now; empty where it can
   * @param toNote what is out of the ordinary, each in a sentence
   */
  public record Line(
      String id,
      String href,
      String choice,
      boolean chosen,
      Optional<MaterialView> material,
      double leftKg,
      String holder,
      Optional<String> whyNot,
      List<String> toNote) {}

  /** What became of the lots that were chosen. */
  public record Done(List<SignedLot> signed, List<LeftOut> leftOut) {}

  /**
   * A lot that was signed for.
   *
   * @param processed whether the processors know of it by now
   */
  public record SignedLot(String id, String href, boolean processed) {}

  /**
   * A lot that nothing was signed for.
   *
   * @param changes what is otherwise since the person read it
   */
  public record LeftOut(String id, String href, String why, List<String> changes) {}
}
