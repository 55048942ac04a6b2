package org.kornspur.api.web;

import java.time.Instant;
import java.util.List;
import java.util.Optional;
import org.kornspur.api.query.view.StandingLineView;

/**
 * What the page of a cause shows.
 *
 * @param title of the cause
 * @param card empty where nothing is not fit for it any more
 * @param notes what was done about it, the last first
 * @param crops crops that are not fit for it
 * @param lots lots that are not fit for it
 * @param more lots beyond those
 * @param customers who got seed of these lots, most first
 * @param mail address that opens a letter about it in the reader's own mail program
 * @param signing what can be signed for the lots
 * @param refusals why a note was not kept, each in a sentence
 * @param text of that note, as typed before
 */
public record CausePageView(
    String title,
    String href,
    Optional<CauseCard> card,
    List<Note> notes,
    List<Crop> crops,
    List<Lot> lots,
    int more,
    List<Customer> customers,
    String mail,
    Signing signing,
    List<String> refusals,
    String text) {

  /** Lots that are not fit for it, shown or not. */
  public int allLots() {
    return lots.size() + more;
  }

  /**
   * What somebody did.
   *
   * @param what in words
   * @param text as written; empty where the kind says all
   */
  public record Note(String what, String personId, Instant at, String text) {}

  /**
   * A lot that is not fit.
   *
   * @param choice seal and id, as the form sends them; empty where it cannot be suspended
   * @param whyNot why it cannot be suspended; empty where it can, or was never released
   */
  public record Lot(
      StandingLineView standing,
      String href,
      double customersKg,
      Optional<String> choice,
      boolean chosen,
      Optional<String> whyNot) {}

  /** A crop that is not fit, with the first reason. */
  public record Crop(String id, String href, String reason) {}

  /** Who got seed. */
  public record Customer(String name, double massKg, List<Link> lots, Instant last) {}

  /** A lot with its page. */
  public record Link(String id, String href) {}

  /**
   * The signature under the chosen lots.
   *
   * @param choices lots that can be suspended
   * @param done what became of the lots that were chosen; empty before anything was sent
   * @param refusals why nothing was signed, each in a sentence
   * @param reason as typed before
   * @param meaning as typed before
   */
  public record Signing(
      long choices,
      Optional<ReleasePageView.Done> done,
      List<String> refusals,
      String reason,
      String meaning) {}
}
