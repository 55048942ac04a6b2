package org.kornspur.processors.finding;

/** Why a result of a test does not count. */
public enum WhySetAside {
  TOO_FEW_SEEDS,
  /** A newer test was made when this one was no longer good. */
  TOO_OLD,
  /** A newer sample is worse, and an older one makes it no better. */
  NEWER_IS_WORSE,
  /** It does not agree with the two tests that agree. */
  DOES_NOT_AGREE,
  /** Of its sample no two tests agree, and a newer sample was tested. */
  SAMPLE_WITHOUT_AGREEMENT,
  /** Of several results the worst counts. */
  ANOTHER_IS_WORSE,
  /** A result that failed is not made good by another test of the same seed. */
  FAILURE_STANDS,
  TOO_LIGHT
}
