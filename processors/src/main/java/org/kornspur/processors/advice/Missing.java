package org.kornspur.processors.advice;

import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.statement.Value.Fact;

/** What would have to be brought for a better forecast. */
public sealed interface Missing extends AdviceStatement {
  record Correction(Fact fact) implements Missing {}

  record CountInFlower() implements Missing {}

  record PollinatorFlowering() implements Missing {}

  record FemaleFlowering() implements Missing {}

  record CropFlowering() implements Missing {}

  record Outline(Subject source) implements Missing {}

  record MixedFrom(Subject lot) implements Missing {}

  record Sowing() implements Missing {}

  record KernelWeight(Subject lot) implements Missing {}

  record GerminationTest(Subject lot) implements Missing {}
}
