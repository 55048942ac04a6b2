package org.kornspur.ingest.problem;

/** What a fact may say of who brought it. */
public sealed interface SubmissionProblem extends IntakeReason {
  record NoTrustedSignature() implements SubmissionProblem {}

  record NotSentIn() implements SubmissionProblem {}
}
