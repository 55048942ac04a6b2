package org.kornspur.processors.advice;

/** No advice can be given on what was asked. */
public final class AdviceRefused extends IllegalArgumentException {
  private static final long serialVersionUID = 1L;

  private final transient AdviceRefusal refusal;

  AdviceRefused(AdviceRefusal refusal) {
    super(refusal.toString());
    this.refusal = refusal;
  }

  public AdviceRefusal refusal() {
    return refusal;
  }
}
