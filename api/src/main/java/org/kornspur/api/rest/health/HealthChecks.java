package org.kornspur.api.rest.health;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.inject.Instance;
import jakarta.inject.Inject;
import java.util.List;
import java.util.stream.Stream;
import org.eclipse.microprofile.config.inject.ConfigProperty;
import org.eclipse.microprofile.health.HealthCheck;
import org.eclipse.microprofile.health.HealthCheckResponse;
import org.eclipse.microprofile.health.HealthCheckResponseBuilder;
import org.eclipse.microprofile.health.Liveness;
import org.eclipse.microprofile.health.Readiness;
import org.kornspur.api.kafka.ProcessorsClient;
import org.kornspur.api.kafka.RulesInForce;
import org.kornspur.api.readmodel.ReadsTopics;
import org.kornspur.api.readmodel.TopicFollower;
import org.kornspur.api.security.people.People;
import org.kornspur.api.security.people.PeopleUnreadable;

/** Whether this instance is alive, and whether it is ready. */
@ApplicationScoped
public class HealthChecks {
  @Inject ProcessorsClient processors;
  @Inject Instance<ReadsTopics> readers;
  @Inject People people;
  @Inject RulesInForce rules;

  @ConfigProperty(name = "quarkus.application.version")
  String version;

  /** Alive unless the processors failed for good or the lists are no longer kept: then restart. */
  @Liveness
  HealthCheck alive() {
    return () ->
        HealthCheckResponse.named("engine and lists live")
            .withData("version", version)
            .withData("engine", processors.condition())
            .status(!processors.hasFailed() && followers().allMatch(TopicFollower::isAlive))
            .build();
  }

  /**
   * Ready once every question can be answered and all lists are complete. Of each list that is not,
   * it says why and since when.
   */
  @Readiness
  HealthCheck complete() {
    return () -> {
      List<TopicFollower> behind = followers().filter(feed -> !feed.isCaughtUp()).toList();
      HealthCheckResponseBuilder answer =
          HealthCheckResponse.named("engine and lists")
              .withData("engine", processors.condition())
              .withData("listsComplete", behind.isEmpty());
      behind.forEach(feed -> answer.withData("feed " + feed.name(), reason(feed)));
      return answer.status(processors.isReady() && behind.isEmpty()).build();
    };
  }

  /** Not ready while the people file is broken, for nobody can log in then. */
  @Readiness
  HealthCheck peopleReadable() {
    return () -> {
      boolean isReadable = true;
      try {
        people.requireReadable();
      } catch (PeopleUnreadable broken) {
        isReadable = false;
      }
      return HealthCheckResponse.named("people file").status(isReadable).build();
    };
  }

  /**
   * By which rules this instance judges, and how far it is with judging dossiers again after they
   * changed. It is ready meanwhile: each standing names the rules that made it.
   */
  @Readiness
  HealthCheck rules() {
    return () -> {
      long remaining = rules.progress().toLookAt();
      return HealthCheckResponse.named("rules")
          .withData("rules", rules.judge().rules().hex())
          .withData("rejudging", remaining > 0)
          .withData("dossiersRemaining", remaining)
          .withData("dossiersJudgedAgain", rules.progress().judged())
          .withData("changedRulebookRefused", rules.areRefused())
          .up()
          .build();
    };
  }

  private Stream<TopicFollower> followers() {
    return readers.stream().flatMap(reader -> reader.followers().stream());
  }

  private static String reason(TopicFollower feed) {
    return feed.failure()
        .map(
            failure ->
                "failed at %s (%s; see the log); it starts again by itself"
                    .formatted(failure.since(), failure.cause().getClass().getSimpleName()))
        .orElse("reads " + feed.topic() + " from its beginning");
  }
}
