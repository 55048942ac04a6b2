package org.kornspur.api.security;

import jakarta.enterprise.context.RequestScoped;
import java.util.Optional;

/** Who asks, in this request. */
@RequestScoped
public class CurrentCaller {
  private Caller caller;

  public void set(Caller known) {
    caller = known;
  }

  /** Empty where nobody logged in. */
  public Optional<Caller> ifKnown() {
    return Optional.ofNullable(caller);
  }

  /**
   * Who asks.
   *
   * @throws IllegalStateException at an address that is open without a log-in
   */
  public Caller get() {
    return ifKnown()
        .orElseThrow(() -> new IllegalStateException("Nobody logged in for this request"));
  }
}
