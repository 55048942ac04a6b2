package org.kornspur.api.security.login;

import static org.assertj.core.api.Assertions.assertThat;

import io.smallrye.config.PropertiesConfigSource;
import io.smallrye.config.SmallRyeConfigBuilder;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.kornspur.api.problem.AccessDetail;
import org.kornspur.api.security.AccessSettings;
import org.kornspur.api.security.Caller;
import org.kornspur.api.security.people.People;
import org.kornspur.api.security.people.TestPeople;

/** What right and wrong passwords cost. */
class PasswordsTest {
  private static final String PERSON = "auditor";
  private static final String HOME = "192.0.2.1";
  private static final int AT_ONCE = 25;
  private static final int MOST_OF_PERSON = 6;

  @TempDir Path folder;

  private Passwords passwords;

  @BeforeEach
  void begin() {
    TestPeople.writeInto(folder);
    AccessSettings settings =
        new SmallRyeConfigBuilder()
            .addDiscoveredConverters()
            .withMapping(AccessSettings.class)
            .withSources(
                new PropertiesConfigSource(
                    Map.of("kornspur.data-folder", folder.toString()), "test", 100))
            .build()
            .getConfigMapping(AccessSettings.class);
    passwords =
        new Passwords(
            new People(settings, () -> "administrator"), new WrongPasswordThrottle(MOST_OF_PERSON));
  }

  private AuthenticationResult check(String password, String address) {
    return passwords.check(PERSON, password, address, Caller.Proof.PASSWORD);
  }

  @Test
  void manyFirstRequestsAtOnceWithTheRightPasswordAllComeIn() throws Exception {
    assertThat(atOnce(TestPeople.password(), AT_ONCE))
        .allSatisfy(
            authentication ->
                assertThat(authentication).isInstanceOf(AuthenticationResult.Known.class));
  }

  @Test
  void manyGuessesAtOnceAreBounded() throws Exception {
    List<Future<AuthenticationResult>> guesses = new ArrayList<>();
    ExecutorService threads = Executors.newFixedThreadPool(AT_ONCE);
    try {
      for (int i = 0; i < AT_ONCE; i++) {
        String guess = "a guess " + i;
        guesses.add(threads.submit(() -> check(guess, HOME)));
      }
      int hashed = 0;
      for (Future<AuthenticationResult> guess : guesses) {
        hashed += status(guess.get()) == 401 ? 1 : 0;
      }
      assertThat(hashed).isEqualTo(5);
    } finally {
      threads.shutdownNow();
    }
  }

  @Test
  void guessesFromManyAddressesAreSlowedAndThePersonStillComesIn() {
    assertThat(check(TestPeople.password(), HOME)).isInstanceOf(AuthenticationResult.Known.class);
    for (int i = 0; i < MOST_OF_PERSON; i++) {
      assertThat(status(check("a guess", "198.51.100." + i))).isEqualTo(401);
    }
    AuthenticationResult slowed = check("another guess", "203.0.113.1");
    assertThat(status(slowed)).isEqualTo(429);
    assertThat(((AuthenticationResult.Refused) slowed).refusal().document().detail())
        .contains(new AccessDetail.TooManyWrongForPerson(MOST_OF_PERSON));
    assertThat(status(check("a slip of the person", HOME))).isEqualTo(401);
    assertThat(check(TestPeople.password(), HOME)).isInstanceOf(AuthenticationResult.Known.class);
  }

  private List<AuthenticationResult> atOnce(String password, int times) throws Exception {
    CountDownLatch start = new CountDownLatch(1);
    ExecutorService threads = Executors.newFixedThreadPool(times);
    try {
      List<Future<AuthenticationResult>> asked = new ArrayList<>();
      for (int i = 0; i < times; i++) {
        asked.add(
            threads.submit(
                () -> {
                  start.await();
                  return check(password, HOME);
                }));
      }
      start.countDown();
      List<AuthenticationResult> answers = new ArrayList<>();
      for (Future<AuthenticationResult> one : asked) {
        answers.add(one.get());
      }
      return answers;
    } finally {
      threads.shutdownNow();
    }
  }

  private static int status(AuthenticationResult authentication) {
    return authentication instanceof AuthenticationResult.Refused refused
        ? refused.refusal().document().status()
        : 200;
  }
}
