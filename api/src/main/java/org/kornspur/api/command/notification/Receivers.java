package org.kornspur.api.command.notification;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Clock;
import java.util.Optional;
import org.kornspur.api.security.Caller;
import org.kornspur.api.security.people.People;
import org.kornspur.api.security.visibility.VisibilityService;

/** Finds out what a person may see now who asks for nothing at the moment. */
@ApplicationScoped
public class Receivers {
  @Inject People people;
  @Inject VisibilityService visibilityService;
  private final Clock clock = Clock.systemUTC();

  /** Whether anybody can be told anything: only of people kept here the roles are known. */
  public boolean areKnown() {
    return people.areKeptHere();
  }

  /** The person with the roles of this moment; empty for one who may not come in. */
  Optional<Receiver> of(String personId) {
    return people
        .find(personId)
        .filter(person -> !person.disabled())
        .map(person -> person.caller(Caller.Proof.SESSION, clock.instant()))
        .map(this::of);
  }

  Receiver of(Caller caller) {
    return new Receiver(caller, visibilityService.of(caller));
  }
}
