package org.kornspur.processors.advice;

import org.kornspur.contract.ShareBasis;

/** Where a number comes from that was not published. */
public sealed interface InputSource extends AdviceStatement {
  record None() implements InputSource {}

  record CommonPractice() implements InputSource {}

  /** Assumed by whoever asks. */
  record Asked() implements InputSource {}

  record BreedersRatio(ShareBasis basis) implements InputSource {}

  /** Calculated from what was sown and mixed. */
  record Mixed(ShareBasis basis) implements InputSource {}

  record Sampled(int pollinator, int kernels) implements InputSource {}

  record Counted(int shedding, int examined) implements InputSource {}

  /** Days in common of those on which the female was seen to flower. */
  record SeenFlowering(int days, int femaleDays) implements InputSource {}

  /** What the law asks for where nobody counted. */
  record LawfulSterility(int shedding, int examined) implements InputSource {}
}
