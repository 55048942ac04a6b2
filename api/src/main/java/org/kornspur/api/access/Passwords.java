package org.kornspur.api.access;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.nio.charset.StandardCharsets;
import java.security.GeneralSecurityException;
import java.security.SecureRandom;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.HexFormat;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;
import javax.crypto.Mac;
import javax.crypto.spec.SecretKeySpec;
import org.jboss.logging.Logger;
import org.kornspur.api.problem.ProblemKind;

/**
 * Holds passwords against the people file. Wrong ones are counted, by person and address and by
 * address alone; right ones are remembered for a moment, under a keyed hash that dies with the
 * process, so that a script does not pay for the hashing with each request.
 */
@ApplicationScoped
public class Passwords {
  private static final Logger LOG = Logger.getLogger(Passwords.class);
  private static final Duration REMEMBERED = Duration.ofMinutes(5);
  private static final int MOST_REMEMBERED = 1_000;
  static final int LONGEST_PASSWORD = 200;

  private final People people;
  private final Clock clock = Clock.systemUTC();
  private final Buckets byPersonAndAddress = new Buckets(5, Duration.ofMinutes(5));
  private final Buckets byAddress = new Buckets(30, Duration.ofMinutes(5));
  private final SecretKeySpec key;
  private final Map<String, Remembered> remembered =
      new LinkedHashMap<>() {
        @Override
        protected boolean removeEldestEntry(Map.Entry<String, Remembered> eldest) {
          return size() > MOST_REMEMBERED;
        }
      };

  private record Remembered(PasswordHash hash, Instant until) {}

  @Inject
  Passwords(People people) {
    this.people = people;
    byte[] random = new byte[32];
    new SecureRandom().nextBytes(random);
    this.key = new SecretKeySpec(random, "HmacSHA256");
  }

  /** The person, where the password was found right a moment ago; does not hash. */
  Optional<Person> recentlyRight(String personId, String password) {
    Remembered known;
    synchronized (remembered) {
      known = remembered.get(nameOf(personId, password));
    }
    if (known == null || known.until().isBefore(clock.instant())) {
      return Optional.empty();
    }
    return people
        .find(personId)
        .filter(person -> !person.disabled() && !person.issued())
        .filter(person -> person.password().equals(known.hash()));
  }

  /**
   * Holds a password against the people file. Takes a good part of a second, and the same whether
   * the person is known or not.
   */
  Knock check(String personId, String password, String address, Caller.Proof proof) {
    String pair = personId + " " + address;
    OptionalLong wait = byAddress.take(address);
    if (wait.isEmpty()) {
      wait = byPersonAndAddress.take(pair);
    }
    if (wait.isPresent()) {
      return new Knock.Refused(
          Refusal.tooMany(
              "Too many wrong passwords from "
                  + address
                  + ": at most "
                  + byPersonAndAddress.most()
                  + " for one person and "
                  + byAddress.most()
                  + " in all within 5 minutes.",
              wait.getAsLong()));
    }
    Instant asked = clock.instant();
    Optional<Person> person = people.findAnew(personId);
    boolean right =
        password.length() <= LONGEST_PASSWORD
            && person.map(Person::password).orElse(PasswordHash.OF_NOBODY).matches(password);
    // what was changed during the hashing holds already
    Optional<Person> now =
        people
            .findAnew(personId)
            .filter(found -> right && !found.disabled())
            .filter(found -> found.password().equals(person.map(Person::password).orElse(null)));
    if (now.isEmpty()) {
      // what was typed as the person may be a password that slipped into the wrong field
      LOG.warnf(
          "Log-in refused for %s from %s",
          person.map(Person::personId).orElse("nobody known"), address);
      return new Knock.Refused(wrong());
    }
    byAddress.putBack(address);
    byPersonAndAddress.putBack(pair);
    Caller caller = now.get().caller(proof, later(asked, person.get().sessionsFrom()));
    if (now.get().issued()) {
      return new Knock.Issued(caller);
    }
    synchronized (remembered) {
      remembered.put(
          nameOf(personId, password),
          new Remembered(now.get().password(), clock.instant().plus(REMEMBERED)));
    }
    return new Knock.Known(caller);
  }

  /**
   * A log-in counts from the moment before the person was looked up, so that whatever ends log-ins
   * meanwhile ends this one too, and not from before what was known then.
   */
  private static Instant later(Instant asked, Instant known) {
    return known.isAfter(asked) ? known : asked;
  }

  private static Refusal wrong() {
    return Refusal.of(
        ProblemKind.NOT_LOGGED_IN,
        "The person is not known, may not come in any more, or the password is wrong.");
  }

  private String nameOf(String personId, String password) {
    try {
      Mac mac = Mac.getInstance(key.getAlgorithm());
      mac.init(key);
      mac.update(personId.getBytes(StandardCharsets.UTF_8));
      mac.update((byte) 0);
      return HexFormat.of().formatHex(mac.doFinal(password.getBytes(StandardCharsets.UTF_8)));
    } catch (GeneralSecurityException e) {
      throw new IllegalStateException("This Java has no HmacSHA256", e);
    }
  }
}
