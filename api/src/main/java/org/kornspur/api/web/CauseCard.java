package org.kornspur.api.web;

import io.quarkus.qute.RawString;
import java.time.Instant;
import java.util.Optional;
import org.kornspur.api.readmodel.CauseKey;

/**
 * A cause for which seed is not fit, as a card: what it is, how far it reaches, who has it in hand.
 *
 * @param href page of the cause
 * @param name of the crop, lot or source
 * @param nameHref its own page; empty where it has none
 * @param wrong what is wrong with it, in the words of the trade
 * @param nearest the crop that the sentence is of, where it is another than the name says
 * @param sentence what was found and what is needed, as HTML
 * @param crops crops that do not meet a gate for it
 * @param lots lots that are not fit for it
 * @param released of these, lots for which somebody signed a release
 * @param leftKg seed of these lots in store
 * @param customersKg seed of these lots at customers
 * @param known since when the facts that tell of it are here; empty where the log does not say
 * @param takenOver who has it in hand
 * @param notes how many notes there are
 */
public record CauseCard(
    CauseKey key,
    String href,
    String name,
    String nameHref,
    String wrong,
    Optional<Crop> nearest,
    Optional<RawString> sentence,
    int crops,
    int lots,
    int released,
    double leftKg,
    double customersKg,
    Optional<Known> known,
    Optional<Holder> takenOver,
    int notes) {

  /** Name of its place on a page. */
  public String anchor() {
    return "cause-" + key.text().replaceAll("[^A-Za-z0-9]+", "-");
  }

  /** A crop with its page. */
  public record Crop(String name, String href) {}

  /**
   * Since when it is known.
   *
   * @param days whole days since then
   */
  public record Known(Instant since, long days) {}

  /**
   * Who took it over.
   *
   * @param isReader whether it is who reads the page
   */
  public record Holder(String personId, Instant since, boolean isReader) {}
}
