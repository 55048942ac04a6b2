package org.kornspur.api.security;

/** Ends a request with a {@link Refusal}. */
public class Refused extends RuntimeException {
  private static final long serialVersionUID = 1L;

  private final transient Refusal refusal;

  public Refused(Refusal refusal) {
    // no stack trace: whoever sends many requests would have one made for each
    super("A request is refused", null, false, false);
    this.refusal = refusal;
  }

  public Refusal refusal() {
    return refusal;
  }
}
