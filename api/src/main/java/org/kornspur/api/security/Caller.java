package org.kornspur.api.security;

import java.time.Instant;
import java.util.Optional;
import java.util.Set;

/**
 * Who asks.
 *
 * @param personId as it stands in {@code header.recordedBy} of facts
 * @param printedName as it stands beside signatures
 * @param enterpriseId whom the person works for: the grower of a multiplier, the laboratory of an
 *     analyst; empty where the person is bound to none
 * @param proof how the person said who they are
 * @param authenticatedAt when a person last gave a password, here or to whoever issued the token;
 *     empty where the token does not say
 */
public record Caller(
    String personId,
    String printedName,
    Set<Role> roles,
    Optional<String> enterpriseId,
    Proof proof,
    Optional<Instant> authenticatedAt) {

  /** How somebody says who they are. */
  public enum Proof {
    /** Person and password with each request (RFC 7617). */
    PASSWORD,
    /** The cookie of a log-in. */
    SESSION,
    /** A bearer token (RFC 6750). */
    TOKEN
  }

  public Caller {
    roles = Set.copyOf(roles);
  }

  /** Whether any of the roles may. */
  public boolean may(Permission action) {
    return roles.stream().anyMatch(action::isOf);
  }
}
