package org.kornspur.api;

import java.lang.annotation.ElementType;
import java.lang.annotation.Inherited;
import java.lang.annotation.Retention;
import java.lang.annotation.RetentionPolicy;
import java.lang.annotation.Target;
import org.junit.jupiter.api.extension.ConditionEvaluationResult;
import org.junit.jupiter.api.extension.ExecutionCondition;
import org.junit.jupiter.api.extension.ExtendWith;
import org.junit.jupiter.api.extension.ExtensionContext;
import org.junit.platform.commons.support.AnnotationSupport;

/** Leaves a test out where a program is missing; {@link NotRun} tells of it at the end. */
@Inherited
@Retention(RetentionPolicy.RUNTIME)
@Target({ElementType.TYPE, ElementType.METHOD})
@ExtendWith(NeedsProgram.Condition.class)
public @interface NeedsProgram {
  Program value();

  /** Whether the program of the annotation is on this machine. */
  final class Condition implements ExecutionCondition {
    @Override
    public ConditionEvaluationResult evaluateExecutionCondition(ExtensionContext context) {
      return context
          .getElement()
          .flatMap(test -> AnnotationSupport.findAnnotation(test, NeedsProgram.class))
          .map(needs -> lookFor(needs.value()))
          .orElseGet(() -> ConditionEvaluationResult.enabled("needs no program"));
    }

    private static ConditionEvaluationResult lookFor(Program program) {
      boolean isMissing = program.find().isEmpty();
      NotRun.note(program, isMissing);
      return isMissing
          ? ConditionEvaluationResult.disabled(program.notRun())
          : ConditionEvaluationResult.enabled(program + " is here");
    }
  }
}
