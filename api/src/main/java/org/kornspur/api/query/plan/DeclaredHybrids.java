package org.kornspur.api.query.plan;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import org.kornspur.api.kafka.ProcessorsClient;
import org.kornspur.contract.HybridDeclared;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.plan.MultiplicationChain;
import org.kornspur.processors.plan.PlanRefusedException;

/** The hybrids of approved plans as they are declared by now, whoever asks. */
@ApplicationScoped
class DeclaredHybrids {
  @Inject ProcessorsClient processors;

  /**
   * The crosses of a plan's hybrids; those that are no longer declared are left out.
   *
   * @throws PlanRefusedException if they contradict each other
   */
  MultiplicationChain chain(PlanDefinition asked) {
    return MultiplicationChain.of(
        asked
            .hybridIds()
            .flatMap(
                id -> processors.dossier(Subject.hybrid(id)).latest(HybridDeclared.class).stream())
            .toList());
  }
}
