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
    return new People(
        new SmallRyeConfigBuilder()
            .addDiscoveredConverters()
            .withMapping(AccessSettings.class)
            .withDefaultValue("kornspur.data-folder", folder.toString())
            .withDefaultValue("kornspur.separate-duties", Boolean.toString(separate))
            .build()
            .getConfigMapping(AccessSettings.class),
        () -> "administrator");
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

  private static void assertRefused(Runnable change) {
    assertThatThrownBy(change::run)
        .isInstanceOfSatisfying(
            ApiProblem.class,
            refused ->
                assertThat(refused.document().detail(ProblemLanguage.words(Language.ENGLISH)))
                    .startsWith("This site keeps apart"));
  }
}
