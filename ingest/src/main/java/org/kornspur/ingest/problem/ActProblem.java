package org.kornspur.ingest.problem;

import java.time.Instant;
import org.kornspur.contract.Category;
import org.kornspur.ingest.statement.Value.Person;

/** What an act of a person must be. */
public sealed interface ActProblem extends IntakeReason {
  record NotLower(Category from) implements ActProblem {}

  record NotOneSubject() implements ActProblem {}

  record OtherSigner(Person recordedBy) implements ActProblem {}

  record OtherTime(Instant recordedAt) implements ActProblem {}

  record NotHexadecimal(int digits) implements ActProblem {}

  record NoTrustedSignature() implements ActProblem {}

  record NotSentIn() implements ActProblem {}
}
