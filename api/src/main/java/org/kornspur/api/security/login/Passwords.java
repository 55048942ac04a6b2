package org.kornspur.api.security.login;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.nio.charset.StandardCharsets;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.Collections;
import java.util.HexFormat;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.Semaphore;
import org.jboss.logging.Logger;
import org.kornspur.api.problem.AccessDetail;
import org.kornspur.api.security.Caller;
import org.kornspur.api.security.Refusal;
import org.kornspur.api.security.people.PasswordHash;
import org.kornspur.api.security.people.People;
import org.kornspur.api.security.people.PeopleUnreadable;
import org.kornspur.api.security.people.Person;
import org.kornspur.api.storage.SymmetricKey;

/**
 * Holds passwords against the people file. Wrong ones are counted, by person and address, by
 * address alone, and by person for all addresses from which nobody logged in as this person since
 * the start: who guesses from many addresses is slowed, and the person is not shut out. Right ones
 * are remembered for a moment, under a keyed hash that dies with the process, so that a script does
 * not pay for the hashing with each request.
 *
 * <p>Requests with the same person and password at the same time share one hashing, and no more are
 * hashed at once than there are processors. So right ones take nothing from what wrong ones may
 * cost.
 */
@ApplicationScoped
public class Passwords {
  private static final Logger LOG = Logger.getLogger(Passwords.class);
  private static final Duration REMEMBERED = Duration.ofMinutes(5);
  private static final int MOST_REMEMBERED = 1_000;
  private static final int MOST_KNOWN_ADDRESSES = 20_000;

  /** Wrong passwords for one person in an hour, from addresses where the person never logged in. */
  private static final int MOST_OF_PERSON = 100;

  public static final int LONGEST_PASSWORD = 200;

  /** A worker waits for its turn to hash; most of them stay free for those who are logged in. */
  private static final int MOST_WAITING = 50;

  private static final int RETRY_AFTER_SECONDS = 5;

  private final People people;
  private final Clock clock = Clock.systemUTC();
  private final RateLimiter byPersonAndAddress = new RateLimiter(5, Duration.ofMinutes(5));
  private final RateLimiter byAddress = new RateLimiter(30, Duration.ofMinutes(5));
  private final RateLimiter byPerson;
  private final SymmetricKey key = SymmetricKey.random();
  private final Semaphore hashing = new Semaphore(Runtime.getRuntime().availableProcessors(), true);
  private final Map<String, CompletableFuture<Optional<AuthenticationResult>>> running =
      new ConcurrentHashMap<>();
  private final Map<String, Remembered> remembered = bounded(MOST_REMEMBERED);

  /** Persons with addresses from which they logged in. */
  private final Map<String, Boolean> knownAddresses =
      Collections.synchronizedMap(bounded(MOST_KNOWN_ADDRESSES));

  private record Remembered(PasswordHash hash, Instant until) {}

  /** A person whose password was found right, and from when the log-in counts. */
  private record Found(Person person, Instant from) {}

  @Inject
  Passwords(People people) {
    this(people, MOST_OF_PERSON);
  }

  Passwords(People people, int mostOfPerson) {
    this.people = people;
    this.byPerson = new RateLimiter(mostOfPerson, Duration.ofHours(1));
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
  public AuthenticationResult check(
      String personId, String password, String address, Caller.Proof proof) {
    CompletableFuture<Optional<AuthenticationResult>> mine = new CompletableFuture<>();
    String name = nameOf(personId, password) + " " + address + " " + proof;
    CompletableFuture<Optional<AuthenticationResult>> other = running.putIfAbsent(name, mine);
    if (other != null) {
      return other.join().orElseThrow(PeopleUnreadable::new);
    }
    Optional<AuthenticationResult> authentication = Optional.empty();
    try {
      authentication = Optional.of(checkAlone(personId, password, address, proof));
      return authentication.get();
    } finally {
      running.remove(name);
      mine.complete(authentication);
    }
  }

  private AuthenticationResult checkAlone(
      String personId, String password, String address, Caller.Proof proof) {
    if (hashing.getQueueLength() >= MOST_WAITING) {
      return new AuthenticationResult.Refused(
          Refusal.tooMany(new AccessDetail.TooManyLogIns(), RETRY_AFTER_SECONDS));
    }
    hashing.acquireUninterruptibly();
    try {
      return counted(personId, password, address, proof);
    } finally {
      hashing.release();
    }
  }

  private AuthenticationResult counted(
      String personId, String password, String address, Caller.Proof proof) {
    String pair = personId + " " + address;
    boolean isNewAddress = !knownAddresses.containsKey(pair);
    OptionalLong wait = byAddress.take(address);
    if (wait.isEmpty()) {
      wait = byPersonAndAddress.take(pair);
    }
    if (wait.isPresent()) {
      return new AuthenticationResult.Refused(
          Refusal.tooMany(
              new AccessDetail.TooManyWrong(address, byPersonAndAddress.most(), byAddress.most()),
              wait.getAsLong()));
    }
    if (isNewAddress) {
      wait = byPerson.take(personId);
      if (wait.isPresent()) {
        return new AuthenticationResult.Refused(
            Refusal.tooMany(
                new AccessDetail.TooManyWrongForPerson(byPerson.most()), wait.getAsLong()));
      }
    }
    Optional<Found> found = found(personId, password, address);
    if (found.isEmpty()) {
      return new AuthenticationResult.Refused(
          Refusal.notLoggedIn(new AccessDetail.WrongPassword()));
    }
    byAddress.putBack(address);
    byPersonAndAddress.putBack(pair);
    if (isNewAddress) {
      byPerson.putBack(personId);
      knownAddresses.put(pair, true);
    }
    Person person = found.get().person();
    Caller caller = person.caller(proof, found.get().from());
    if (person.issued()) {
      return new AuthenticationResult.Issued(caller);
    }
    synchronized (remembered) {
      remembered.put(
          nameOf(personId, password),
          new Remembered(person.password(), clock.instant().plus(REMEMBERED)));
    }
    return new AuthenticationResult.Known(caller);
  }

  private Optional<Found> found(String personId, String password, String address) {
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
    }
    return now.map(known -> new Found(known, later(asked, person.get().sessionsFrom())));
  }

  /**
   * A log-in counts from the moment before the person was looked up, so that whatever ends log-ins
   * meanwhile ends this one too, and not from before what was known then.
   */
  private static Instant later(Instant asked, Instant known) {
    return known.isAfter(asked) ? known : asked;
  }

  private String nameOf(String personId, String password) {
    byte[] both = (personId + "\0" + password).getBytes(StandardCharsets.UTF_8);
    return HexFormat.of().formatHex(key.mac(both));
  }

  private static <T> Map<String, T> bounded(int most) {
    return new LinkedHashMap<>(16, 0.75f, true) {
      @Override
      protected boolean removeEldestEntry(Map.Entry<String, T> eldest) {
        return size() > most;
      }
    };
  }
}
