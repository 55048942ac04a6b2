package org.kornspur.api.security.people;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import io.quarkus.runtime.StartupEvent;
import io.quarkus.runtime.configuration.ConfigurationException;
import io.smallrye.config.SmallRyeConfigBuilder;
import java.nio.file.Path;
import java.util.Optional;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.kornspur.api.problem.ApiProblem;
import org.kornspur.api.problem.ProblemLanguage;
import org.kornspur.api.security.AccessSettings;
import org.kornspur.api.security.Role;
import org.kornspur.api.security.login.AsPerson;
import org.kornspur.api.text.Language;

/** Where a site asks for it, nobody both manages the people and decides on seed. */
class SeparateDutiesTest {
  private static final Set<Role> BOTH = Set.of(Role.QUALITY, Role.ADMINISTRATOR, Role.AUDITOR);

  @TempDir Path folder;

  private People people(boolean separate) {
    return people(separate, "administrator");
  }

  private People people(boolean separate, String who) {
    return new People(
        new SmallRyeConfigBuilder()
            .addDiscoveredConverters()
            .withMapping(AccessSettings.class)
            .withDefaultValue("kornspur.data-folder", folder.toString())
            .withDefaultValue("kornspur.separate-duties", Boolean.toString(separate))
            .build()
            .getConfigMapping(AccessSettings.class),
        () -> who);
  }

  @Test
  void nobodyIsGivenBothRolesAndEitherIsGiven() {
    TestPeople.writeInto(folder);
    People people = people(true);
    assertRefused(() -> people.add("p-1", "Invented One", BOTH, Optional.empty()));
    String quality = TestPeople.of(Role.QUALITY);
    assertRefused(() -> people.change(quality, "Invented One", BOTH, Optional.empty()));
    assertThat(people.get(quality).roles()).containsExactly(Role.QUALITY);
    people.add("p-1", "Invented One", Set.of(Role.QUALITY, Role.AUDITOR), Optional.empty());
    people.change("p-1", "Invented One", Set.of(Role.ADMINISTRATOR), Optional.empty());
    assertThat(people.get("p-1").roles()).containsExactly(Role.ADMINISTRATOR);
  }

  /** Whoever held both before the site asked for it. */
  @Test
  void aStartWithSuchAPersonEndsAndNamesThePerson() {
    TestPeople.writeInto(folder);
    assertThatThrownBy(() -> people(true).start(new StartupEvent()))
        .isInstanceOf(ConfigurationException.class)
        .hasMessageContaining("are: " + AsPerson.EVERYTHING + ". Start without it");
    people(false).start(new StartupEvent());
    people(false).change(AsPerson.EVERYTHING, "Invented", Set.of(Role.QUALITY), Optional.empty());
    people(true).start(new StartupEvent());
  }

  /** Until then who issued the password could be the one who uses it. */
  @Test
  void whoIsNotConfirmedDoesNothingWhereDutiesAreApart() {
    TestPeople.writeInto(folder);
    People people = people(true);
    people.add("p-1", "Invented One", Set.of(Role.LABORATORY), Optional.empty());
    people.setPassword("p-1", "a password of my own");
    assertThat(people.heldBackBy("p-1")).contains("administrator");
    assertThat(people(false).heldBackBy("p-1")).isEmpty();
    assertThat(people.heldBackBy(TestPeople.of(Role.LABORATORY))).isEmpty();

    people(true, TestPeople.of(Role.INSPECTOR)).confirm("p-1");
    assertThat(people(true).heldBackBy("p-1")).isEmpty();
  }

  private static void assertRefused(Runnable change) {
    assertThatThrownBy(change::run)
        .isInstanceOfSatisfying(
            ApiProblem.class,
            refused ->
                assertThat(refused.document().detail(ProblemLanguage.words(Language.ENGLISH)))
                    .startsWith("This site keeps apart"));
  }
}
