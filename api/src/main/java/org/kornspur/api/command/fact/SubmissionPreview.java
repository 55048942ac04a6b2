package org.kornspur.api.command.fact;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.List;
import java.util.Optional;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.api.kafka.ProcessorsClient;
import org.kornspur.api.kafka.RulesInForce;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.intake.Problem;
import org.kornspur.processors.judging.StandingPreview;

/** Previews what would become of a fact if it were submitted; nothing is recorded. */
@ApplicationScoped
public class SubmissionPreview {
  @Inject SubmissionRights rights;
  @Inject ProcessorsClient processors;
  @Inject RulesInForce rules;

  /**
   * What the intake would say against a fact of the caller.
   *
   * @return empty where nothing speaks against it, but for an id that is taken
   */
  public List<Problem> problems(SpecificRecord fact) {
    return rights.problemsOf(fact);
  }

  /**
   * How the crops and lots would stand that the fact names; none where that cannot be told by them
   * alone. Their parents are judged with what the caller may not see, as they always are: show only
   * what the caller may see.
   *
   * @param fact one that nothing speaks against
   * @param replaced the fact that it corrects or takes back
   */
  public List<StandingPreview.Change> changes(
      SpecificRecord fact, Optional<SpecificRecord> replaced) {
    return StandingPreview.tells(FactType.of(replaced.orElse(fact)))
        ? new StandingPreview(rules.judge(), processors::dossier).of(rights.signed(fact), replaced)
        : List.of();
  }
}
