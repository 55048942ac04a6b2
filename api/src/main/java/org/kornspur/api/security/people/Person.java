package org.kornspur.api.security.people;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.Collections;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import org.kornspur.api.security.Caller;
import org.kornspur.api.security.Role;

/**
 * A person, in the shape of the people file; files of earlier versions do not say issued.
 *
 * @param issued whether the administrator has seen the password, so that it proves nobody and is
 *     good for nothing but setting one's own
 * @param disabled whether the person may not come in any more
 * @param sessionsFrom log-ins before this moment have ended
 * @param issuedBy administrator who issued the password that the own one took the place of, until
 *     somebody else confirmed that the person set it; empty where nobody has to
 */
public record Person(
    String personId,
    String printedName,
    Set<Role> roles,
    Optional<String> enterpriseId,
    PasswordHash password,
    @JsonInclude(JsonInclude.Include.NON_DEFAULT) boolean issued,
    boolean disabled,
    Instant sessionsFrom,
    @JsonInclude(JsonInclude.Include.NON_ABSENT) Optional<String> issuedBy) {

  public Person(
      String personId,
      String printedName,
      Set<Role> roles,
      Optional<String> enterpriseId,
      PasswordHash password,
      boolean issued,
      boolean disabled,
      Instant sessionsFrom) {
    this(
        personId,
        printedName,
        roles,
        enterpriseId,
        password,
        issued,
        disabled,
        sessionsFrom,
        Optional.empty());
  }

  public Person {
    roles = Collections.unmodifiableSet(new TreeSet<>(roles));
    Objects.requireNonNull(password);
    Objects.requireNonNull(sessionsFrom);
    issuedBy = issuedBy == null ? Optional.empty() : issuedBy; // as in files of earlier versions
  }

  public Caller caller(Caller.Proof proof, Instant authenticatedAt) {
    return new Caller(
        personId, printedName, roles, enterpriseId, proof, Optional.of(authenticatedAt));
  }

  /** With another name, other roles or another enterprise. */
  Person with(String name, Set<Role> others, Optional<String> enterprise, Instant now) {
    return with(name, others, enterprise, password, issued, disabled, now);
  }

  /** With a password that the person chose. */
  Person withPassword(PasswordHash other, Instant now) {
    return with(printedName, roles, enterpriseId, other, false, disabled, now);
  }

  /** With a password that an administrator has seen. */
  Person withIssued(PasswordHash other, String administratorId, Instant now) {
    return with(printedName, roles, enterpriseId, other, true, disabled, now)
        .withIssuedBy(Optional.of(administratorId));
  }

  Person withIssuedBy(Optional<String> administratorId) {
    return new Person(
        personId,
        printedName,
        roles,
        enterpriseId,
        password,
        issued,
        disabled,
        sessionsFrom,
        administratorId);
  }

  Person withDisabled(boolean other, Instant now) {
    return with(printedName, roles, enterpriseId, password, issued, other, now);
  }

  Person withSessionsFrom(Instant now) {
    return with(printedName, roles, enterpriseId, password, issued, disabled, now);
  }

  private Person with(
      String name,
      Set<Role> others,
      Optional<String> enterprise,
      PasswordHash hash,
      boolean isIssued,
      boolean isDisabled,
      Instant now) {
    return new Person(
        personId,
        name,
        others,
        enterprise,
        hash,
        isIssued,
        isDisabled,
        afterItsLogIns(now),
        issuedBy);
  }

  /**
   * A moment after every log-in up to now; cookies count milliseconds, so it is later by one than
   * now and than the moment before it.
   */
  private Instant afterItsLogIns(Instant now) {
    Instant latest = now.isAfter(sessionsFrom) ? now : sessionsFrom;
    return latest.truncatedTo(ChronoUnit.MILLIS).plusMillis(1);
  }

  boolean isActiveAdministrator() {
    return !disabled && roles.contains(Role.ADMINISTRATOR);
  }
}
