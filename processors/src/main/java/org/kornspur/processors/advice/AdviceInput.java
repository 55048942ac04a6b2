package org.kornspur.processors.advice;

/** A number that a forecast of hybridity rests on. */
public sealed interface AdviceInput extends AdviceStatement {
  record SheddingFemales() implements AdviceInput {}

  record PollinatorShare() implements AdviceInput {}

  record PollinatorOverlap() implements AdviceInput {}

  record ShedderPollen() implements AdviceInput {}

  record PollinatorYield() implements AdviceInput {}

  record KernelTail() implements AdviceInput {}

  record KernelDistance() implements AdviceInput {}

  record KernelShare() implements AdviceInput {}

  record WindDirection() implements AdviceInput {}

  record WindRatio() implements AdviceInput {}
}
