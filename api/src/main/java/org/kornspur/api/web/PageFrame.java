package org.kornspur.api.web;

import java.util.List;
import java.util.Optional;
import org.kornspur.api.text.DomainTerms;
import org.kornspur.api.text.Language;
import org.kornspur.api.text.LocalFormat;

/**
 * What stands around the content of a page.
 *
 * @param form writes dates, numbers and units
 * @param trade words of the trade
 * @param navigation where the navigation leads, within sight
 * @param more where it leads besides, once its menu is opened
 * @param languages the languages, each with the address that switches to it
 * @param asOf one sentence on how fresh the data is; empty where the page shows none
 * @param ignored what was ignored in the address, each in a sentence
 * @param person printed name of who is signed in; empty where nobody is
 * @param formToken what each form that posts carries as {@code csrfToken}; empty without a cookie
 * @param searching whether who asked may search crops and lots
 * @param version of the program
 */
public record PageFrame(
    Language language,
    LocalFormat form,
    DomainTerms trade,
    List<Place> navigation,
    List<Place> more,
    List<Choice> languages,
    Optional<String> asOf,
    List<String> ignored,
    Optional<String> person,
    Optional<String> formToken,
    boolean searching,
    String version) {

  /** A place that the navigation leads to; {@code here} where the page belongs to it. */
  public record Place(String href, String label, boolean here) {}

  /** A language that can be chosen; {@code chosen} where the page is in it. */
  public record Choice(String href, String tag, String name, boolean chosen) {}
}
