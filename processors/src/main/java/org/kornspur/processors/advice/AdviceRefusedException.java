package org.kornspur.processors.advice;

/** No advice can be given on what was asked. */
public final class AdviceRefusedException extends IllegalArgumentException {
  private final transient AdviceRefusal refusal;

  AdviceRefusedException(AdviceRefusal refusal) {
    super(refusal.toString());
    this.refusal = refusal;
  }

  public AdviceRefusal refusal() {
    return refusal;
  }
}
