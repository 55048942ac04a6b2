package org.kornspur.api.rest.health;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import org.eclipse.microprofile.health.HealthCheck;
import org.eclipse.microprofile.health.HealthCheckResponse;
import org.eclipse.microprofile.health.Readiness;
import org.kornspur.api.kafka.RulesInForce;

/**
 * By which rules this instance judges, and how far it is with judging dossiers again after they
 * changed. It is ready meanwhile: each standing names the rules that made it.
 */
@Readiness
@ApplicationScoped
public class RulesReady implements HealthCheck {
  @Inject RulesInForce rules;

  @Override
  public HealthCheckResponse call() {
    long remaining = rules.progress().toLookAt();
    return HealthCheckResponse.named("rules")
        .withData("rules", rules.judge().rules().hex())
        .withData("rejudging", remaining > 0)
        .withData("dossiersRemaining", remaining)
        .withData("dossiersJudgedAgain", rules.progress().judged())
        .withData("changedRulebookRefused", rules.areRefused())
        .up()
        .build();
  }
}
