package org.kornspur.api.query.advice;

import java.util.function.Supplier;
import org.kornspur.api.problem.ApiProblem;
import org.kornspur.api.problem.CropDetail;
import org.kornspur.processors.advice.AdviceRefusedException;

/** Answers refusals of advice as problem documents. */
public final class AdviceRefusals {

  private AdviceRefusals() {}

  /** Asks for advice; a refusal ends the request with a problem document. */
  public static <T> T asProblems(Supplier<T> advice) {
    try {
      return advice.get();
    } catch (AdviceRefusedException refused) {
      throw ApiProblem.refused(refused.refusal());
    } catch (IllegalArgumentException refused) {
      throw ApiProblem.refused(new CropDetail.NotCalculated(refused.getMessage()));
    }
  }
}
