package org.kornspur.api.command.notification;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.Arrays;
import java.util.EnumSet;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.kornspur.api.security.Caller;
import org.kornspur.api.security.Role;
import org.kornspur.api.security.people.People;
import org.kornspur.api.security.visibility.VisibilityService;
import org.kornspur.contract.IssuedRoles;
import org.kornspur.contract.NotificationChoice;

/** Finds out what a person may see now who asks for nothing at the moment. */
@ApplicationScoped
public class Receivers {
  @Inject People people;
  @Inject VisibilityService visibilityService;
  @Inject NotificationSettings settings;
  private final Clock clock = Clock.systemUTC();

  /**
   * The person with the roles of this moment; empty for one who may not come in. Of people whom an
   * issuer knows, the roles of the latest token count as long as it is recent: nobody tells the
   * program when they leave.
   *
   * @param choice what the person chose, if anything
   */
  Optional<Receiver> of(String personId, Optional<NotificationChoice> choice) {
    Instant now = clock.instant();
    return (people.areKeptHere()
            ? people
                .find(personId)
                .filter(person -> !person.disabled())
                .map(person -> person.caller(Caller.Proof.SESSION, now))
            : choice.flatMap(
                one ->
                    known(one, now, Duration.ofDays(settings.notifications().issuedRolesDays()))))
        .map(this::of);
  }

  /** Whether the program itself knows the people, and no issuer. */
  boolean areKeptHere() {
    return people.areKeptHere();
  }

  Receiver of(Caller caller) {
    return new Receiver(caller, visibilityService.of(caller));
  }

  /** What is to be kept of a person whom an issuer knows; empty of people kept here. */
  Optional<IssuedRoles> issued(Caller caller) {
    return people.areKeptHere()
        ? Optional.empty()
        : Optional.of(
            IssuedRoles.newBuilder()
                .setRoles(caller.roles().stream().map(Role::name).sorted().toList())
                .setEnterpriseId(caller.enterpriseId().orElse(null))
                .setSaidAt(clock.instant())
                .build());
  }

  /** The person as the latest token said, if that was not too long ago. */
  static Optional<Caller> known(NotificationChoice choice, Instant now, Duration longest) {
    return Optional.ofNullable(choice.getIssued())
        .filter(issued -> issued.getSaidAt().plus(longest).isAfter(now))
        .map(
            issued ->
                new Caller(
                    choice.getPersonId(),
                    choice.getPersonId(),
                    roles(issued),
                    Optional.ofNullable(issued.getEnterpriseId()),
                    Caller.Proof.TOKEN,
                    Optional.empty()));
  }

  /** Without those that this version does not know. */
  private static Set<Role> roles(IssuedRoles issued) {
    return Arrays.stream(Role.values())
        .filter(role -> issued.getRoles().contains(role.name()))
        .collect(Collectors.toCollection(() -> EnumSet.noneOf(Role.class)));
  }
}
