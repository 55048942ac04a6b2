package org.kornspur.api.access;

import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;

/**
 * A person of the people file.
 *
 * @param disabled whether the person may not come in any more
 * @param sessionsFrom log-ins before this moment have ended
 */
record Person(
    String personId,
    String printedName,
    Set<Role> roles,
    Optional<String> enterpriseId,
    PasswordHash password,
    boolean disabled,
    Instant sessionsFrom) {

  Person {
    roles = java.util.Collections.unmodifiableSet(new TreeSet<>(roles));
  }

  Caller caller(Caller.Proof proof, Instant authenticatedAt) {
    return new Caller(
        personId, printedName, roles, enterpriseId, proof, Optional.of(authenticatedAt));
  }

  Person withPassword(PasswordHash other, Instant now) {
    return new Person(
        personId, printedName, roles, enterpriseId, other, disabled, afterItsLogIns(now));
  }

  Person withDisabled(boolean other, Instant now) {
    return new Person(
        personId, printedName, roles, enterpriseId, password, other, afterItsLogIns(now));
  }

  Person withSessionsFrom(Instant now) {
    return new Person(
        personId, printedName, roles, enterpriseId, password, disabled, afterItsLogIns(now));
  }

  /**
   * A moment after every log-in up to now; cookies count milliseconds, so it is later by one than
   * now and than the moment before it.
   */
  Instant afterItsLogIns(Instant now) {
    Instant latest = now.isAfter(sessionsFrom) ? now : sessionsFrom;
    return latest.truncatedTo(ChronoUnit.MILLIS).plusMillis(1);
  }

  boolean isActiveAdministrator() {
    return !disabled && roles.contains(Role.ADMINISTRATOR);
  }
}
