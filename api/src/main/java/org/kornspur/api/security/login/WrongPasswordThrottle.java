package org.kornspur.api.security.login;

import jakarta.enterprise.context.ApplicationScoped;
import java.time.Duration;
import java.util.Collections;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;
import org.kornspur.api.problem.AccessDetail;
import org.kornspur.api.security.Refusal;
import org.kornspur.api.security.limit.LruMap;
import org.kornspur.api.security.limit.RateLimiter;

/**
 * Bounds how many wrong passwords are tried, by token buckets of this instance:
 *
 * <ul>
 *   <li>{@value #OF_PERSON_AND_ADDRESS} for a person from one address in {@value #MINUTES} minutes,
 *   <li>{@value #OF_ADDRESS} from one address in {@value #MINUTES} minutes,
 *   <li>{@value #OF_PERSON} for a person in an hour from all addresses from which nobody logged in
 *       as this person since the start: who guesses from many addresses is slowed, and the person
 *       is not shut out.
 * </ul>
 *
 * <p>Every password is counted before it is looked at, so that guesses at one moment do not pass
 * together; one that was right is taken back. The numbers are chosen, without a source.
 */
@ApplicationScoped
class WrongPasswordThrottle {
  private static final int MINUTES = 5;
  private static final int OF_PERSON_AND_ADDRESS = 5;
  private static final int OF_ADDRESS = 30;
  private static final int OF_PERSON = 100;
  private static final int MOST_KNOWN_ADDRESSES = 20_000;

  private final RateLimiter byPersonAndAddress =
      new RateLimiter(OF_PERSON_AND_ADDRESS, Duration.ofMinutes(MINUTES));
  private final RateLimiter byAddress = new RateLimiter(OF_ADDRESS, Duration.ofMinutes(MINUTES));
  private final RateLimiter byPerson;

  /** Persons with addresses from which they logged in. */
  private final Map<String, Boolean> knownAddresses =
      Collections.synchronizedMap(new LruMap<>(MOST_KNOWN_ADDRESSES));

  WrongPasswordThrottle() {
    this(OF_PERSON);
  }

  WrongPasswordThrottle(int mostOfPerson) {
    byPerson = new RateLimiter(mostOfPerson, Duration.ofHours(1));
  }

  /**
   * A password that was counted as if it were wrong.
   *
   * @param isNewAddress whether nobody logged in as the person from there
   * @param refusal why it may not be looked at; empty where it may
   */
  record Attempt(
      String personId, String address, boolean isNewAddress, Optional<Refusal> refusal) {}

  /** Counts a password, before it is looked at. */
  Attempt begin(String personId, String address) {
    boolean isNewAddress = !knownAddresses.containsKey(pair(personId, address));
    return new Attempt(personId, address, isNewAddress, take(personId, address, isNewAddress));
  }

  private Optional<Refusal> take(String personId, String address, boolean isNewAddress) {
    OptionalLong wait = byAddress.take(address);
    if (wait.isEmpty()) {
      wait = byPersonAndAddress.take(pair(personId, address));
    }
    if (wait.isPresent()) {
      return Optional.of(
          Refusal.tooMany(
              new AccessDetail.TooManyWrong(address, byPersonAndAddress.most(), byAddress.most()),
              wait.getAsLong()));
    }
    if (isNewAddress) {
      wait = byPerson.take(personId);
    }
    return wait.isPresent()
        ? Optional.of(
            Refusal.tooMany(
                new AccessDetail.TooManyWrongForPerson(byPerson.most()), wait.getAsLong()))
        : Optional.empty();
  }

  /** Takes back one that was right. From then on the address is one of the person's. */
  void wasRight(Attempt attempt) {
    byAddress.putBack(attempt.address());
    byPersonAndAddress.putBack(pair(attempt.personId(), attempt.address()));
    if (attempt.isNewAddress()) {
      byPerson.putBack(attempt.personId());
      knownAddresses.put(pair(attempt.personId(), attempt.address()), true);
    }
  }

  private static String pair(String personId, String address) {
    return personId + " " + address;
  }
}
