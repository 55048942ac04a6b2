package org.kornspur.api.web;

import jakarta.enterprise.context.RequestScoped;
import jakarta.inject.Inject;
import java.util.Arrays;
import java.util.List;
import org.kornspur.api.query.SetUpProgress;
import org.kornspur.api.security.CurrentCaller;

/** Where the navigation leads who asks. */
@RequestScoped
public class Navigation {
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
}
