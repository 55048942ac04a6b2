package org.kornspur.api.web;

import jakarta.enterprise.context.RequestScoped;
import jakarta.inject.Inject;
import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;
import org.kornspur.api.query.SetUpProgress;
import org.kornspur.api.security.CurrentCaller;

/** Where the navigation leads who asks. */
@RequestScoped
public class Navigation {
  /** So many have room in one line beside the search. */
  private static final int IN_ROW = 6;

  @Inject CurrentCaller caller;
  @Inject SetUpProgress progress;

  /** The items, in their order. The first steps are among them until they are done. */
  List<NavigationItem> items() {
    return Arrays.stream(NavigationItem.values())
        .filter(item -> !item.href().isEmpty())
        .filter(
            item ->
                caller
                    .ifKnown()
                    .map(known -> known.may(item.needs()))
                    .orElseGet(() -> item.needs().isOfAnybody()))
        .filter(item -> item != NavigationItem.FIRST_STEPS || progress.isOpen())
        .toList();
  }

  /** Those within sight: the first ones and the present one. One alone is not hidden. */
  static List<NavigationItem> row(List<NavigationItem> items, NavigationItem here) {
    return IntStream.range(0, items.size())
        .filter(at -> at < IN_ROW || items.size() == IN_ROW + 1 || items.get(at) == here)
        .mapToObj(items::get)
        .toList();
  }
}
