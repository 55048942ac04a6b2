package org.kornspur.api.security.login;

import jakarta.enterprise.context.ApplicationScoped;
import java.nio.charset.StandardCharsets;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.HexFormat;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.Semaphore;
import org.jboss.logging.Logger;
import org.kornspur.api.problem.AccessDetail;
import org.kornspur.api.security.Caller;
import org.kornspur.api.security.Refusal;
import org.kornspur.api.security.limit.LruMap;
import org.kornspur.api.security.people.PasswordHash;
import org.kornspur.api.security.people.People;
import org.kornspur.api.security.people.PeopleUnreadable;
import org.kornspur.api.security.people.Person;
import org.kornspur.api.storage.SymmetricKey;
import org.kornspur.api.time.SteadyClock;

/**
 * Holds passwords against the people file; {@link WrongPasswordThrottle} bounds how many wrong ones
 * are tried. Right ones are remembered for a moment, under a keyed hash that dies with the process,
 * so that a script does not pay for the hashing with each request.
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

  public static final int LONGEST_PASSWORD = 200;

  /** A worker waits for its turn to hash; most of them stay free for those who are logged in. */
  private static final int MOST_WAITING = 50;

  private static final int RETRY_AFTER_SECONDS = 5;

  private final People people;
  private final WrongPasswordThrottle throttle;
  private final Clock clock = SteadyClock.ofMachine();
  private final SymmetricKey key = SymmetricKey.random();
  private final Semaphore hashing = new Semaphore(Runtime.getRuntime().availableProcessors(), true);
  private final Map<String, CompletableFuture<Optional<AuthenticationResult>>> running =
      new ConcurrentHashMap<>();
  private final Map<String, Remembered> remembered = new LruMap<>(MOST_REMEMBERED);

  private record Remembered(PasswordHash hash, Instant until) {}

  /** A person whose password was found right, and from when the log-in counts. */
  private record Found(Person person, Instant from) {}

  Passwords(People people, WrongPasswordThrottle throttle) {
    this.people = people;
    this.throttle = throttle;
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
    WrongPasswordThrottle.Attempt attempt = throttle.begin(personId, address);
    if (attempt.refusal().isPresent()) {
      return new AuthenticationResult.Refused(attempt.refusal().get());
    }
    Optional<Found> found = found(personId, password, address);
    if (found.isEmpty()) {
      return new AuthenticationResult.Refused(
          Refusal.notLoggedIn(new AccessDetail.WrongPassword()));
    }
    throttle.wasRight(attempt);
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
}
