package org.kornspur.api.security.login;

import static org.assertj.core.api.Assertions.assertThat;

import io.smallrye.config.PropertiesConfigSource;
import io.smallrye.config.SmallRyeConfigBuilder;
import jakarta.enterprise.inject.Vetoed;
import java.nio.file.Path;
import java.util.Map;
import java.util.Optional;
import java.util.function.Consumer;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.kornspur.api.security.AccessSettings;
import org.kornspur.api.security.Caller;
import org.kornspur.api.security.people.People;
import org.kornspur.api.security.people.Person;
import org.kornspur.api.security.people.TestPeople;

/** What is changed while a password is hashed, which takes long, holds for this log-in already. */
class LogInRaceTest {
  private static final String PERSON = "auditor";

  @TempDir Path folder;

  /** Something happens to the person just after a log-in looked the person up. */
  @Vetoed
  private static final class Meanwhile extends People {
    private Optional<Consumer<People>> change;

    Meanwhile(AccessSettings settings, Consumer<People> change) {
      super(settings, () -> "administrator");
      this.change = Optional.of(change);
    }

    @Override
    public Optional<Person> find(String personId) {
      return changed(super.find(personId));
    }

    @Override
    public Optional<Person> findAnew(String personId) {
      return changed(super.findAnew(personId));
    }

    private Optional<Person> changed(Optional<Person> found) {
      Optional<Consumer<People>> due = change;
      change = Optional.empty();
      due.ifPresent(happens -> happens.accept(this));
      return found;
    }
  }

  private AccessSettings settings() {
    return new SmallRyeConfigBuilder()
        .addDiscoveredConverters()
        .withMapping(AccessSettings.class)
        .withSources(
            new PropertiesConfigSource(
                Map.of("kornspur.data-folder", folder.toString()), "test", 100))
        .build()
        .getConfigMapping(AccessSettings.class);
  }

  /** Who the cookie of a log-in stands for, during which this happened. */
  private Optional<Caller> loggedInDuring(Consumer<People> change) {
    TestPeople.writeInto(folder);
    AccessSettings settings = settings();
    People people = new Meanwhile(settings, change);
    Sessions sessions = new Sessions(settings, people);
    AuthenticationResult authentication =
        new Passwords(people, new WrongPasswordThrottle())
            .check(PERSON, TestPeople.password(), "192.0.2.1", Caller.Proof.SESSION);
    return authentication instanceof AuthenticationResult.Known known
        ? sessions.read(sessions.begin(known.caller(), true).getValue())
        : Optional.empty();
  }

  @Test
  void aLogInThatNothingDisturbsHolds() {
    assertThat(loggedInDuring(people -> {})).isPresent();
  }

  @Test
  void aChangeOfThePasswordEndsIt() {
    assertThat(loggedInDuring(people -> people.setPassword(PERSON, "another invented one")))
        .isEmpty();
  }

  @Test
  void aLogOutEndsIt() {
    assertThat(loggedInDuring(people -> people.endSessions(PERSON))).isEmpty();
  }

  /** Enabled again too, so that the time of the log-in alone can tell. */
  @Test
  void disablingEndsIt() {
    assertThat(loggedInDuring(people -> people.disable(PERSON, true))).isEmpty();
    assertThat(
            loggedInDuring(
                people -> {
                  people.disable(PERSON, true);
                  people.disable(PERSON, false);
                }))
        .isEmpty();
  }

  /** Within one millisecond too, which is what a cookie counts. */
  @Test
  void aLogInAfterALogOutHoldsAndEndsWithTheNext() {
    TestPeople.writeInto(folder);
    AccessSettings settings = settings();
    People people = new People(settings, () -> "administrator");
    Sessions sessions = new Sessions(settings, people);
    for (int i = 0; i < 50; i++) {
      people.endSessions(PERSON);
      Person person = people.find(PERSON).orElseThrow();
      String cookie =
          sessions
              .begin(person.caller(Caller.Proof.SESSION, person.sessionsFrom()), true)
              .getValue();
      assertThat(sessions.read(cookie)).isPresent();
      people.endSessions(PERSON);
      assertThat(sessions.read(cookie)).isEmpty();
    }
  }
}
