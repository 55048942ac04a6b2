package org.kornspur.api.security.login;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

/** How many wrong passwords may be tried. The numbers are chosen, without a source. */
class WrongPasswordThrottleTest {
  private static final String HOME = "192.0.2.1";

  private final WrongPasswordThrottle throttle = new WrongPasswordThrottle();

  private boolean mayTry(String personId, String address) {
    return throttle.begin(personId, address).refusal().isEmpty();
  }

  private int triesBeforeRefusal(Try next) {
    int tries = 0;
    while (next.mayGoOn(tries)) {
      tries++;
    }
    return tries;
  }

  private interface Try {
    boolean mayGoOn(int number);
  }

  @Test
  void onePersonFromOneAddress() {
    assertThat(triesBeforeRefusal(number -> mayTry("auditor", HOME))).isEqualTo(5);
    assertThat(mayTry("auditor", "192.0.2.2")).isTrue();
  }

  @Test
  void anybodyFromOneAddress() {
    assertThat(triesBeforeRefusal(number -> mayTry("person" + number, HOME))).isEqualTo(30);
  }

  @Test
  void onePersonFromManyAddressesButNotFromThatOfThePerson() {
    throttle.wasRight(throttle.begin("auditor", HOME));

    assertThat(triesBeforeRefusal(number -> mayTry("auditor", "198.51.100." + number)))
        .isEqualTo(100);
    assertThat(mayTry("auditor", HOME)).isTrue();
  }

  @Test
  void aRightPasswordCostsNothing() {
    for (int i = 0; i < 200; i++) {
      throttle.wasRight(throttle.begin("auditor", HOME));
    }

    assertThat(mayTry("auditor", HOME)).isTrue();
  }
}
