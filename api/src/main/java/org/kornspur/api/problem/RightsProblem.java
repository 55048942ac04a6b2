package org.kornspur.api.problem;

import java.util.List;
import java.util.Optional;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.statement.Value.Person;

/** Which facts somebody may bring. */
public sealed interface RightsProblem extends RequestReason {
  record OtherRole(List<? extends Enum<?>> own, List<? extends Enum<?>> allowed)
      implements RightsProblem {}

  record OtherRecorder(Person person) implements RightsProblem {}

  record ForeignFactId(Optional<String> enterprise, Person person) implements RightsProblem {}

  record NoEnterprise() implements RightsProblem {}

  record MendsAct() implements RightsProblem {}

  record MendsWithdrawal() implements RightsProblem {}

  record MendsOtherKind(FactType kind, FactType by) implements RightsProblem {}

  record MendsOtherSubject() implements RightsProblem {}

  record GrantedByAuthority() implements RightsProblem {}

  record NotBrought() implements RightsProblem {}

  record OtherEnterprise(String enterprise) implements RightsProblem {}

  record OtherLaboratory(String laboratory) implements RightsProblem {}

  record NotAssigned(String laboratory) implements RightsProblem {}

  record NotOwnCrop(String enterprise) implements RightsProblem {}

  record NotOwnLot(String enterprise) implements RightsProblem {}

  record IdTaken() implements RightsProblem {}
}
