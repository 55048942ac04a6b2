package org.kornspur.api.security.login;

import org.kornspur.api.security.Caller;
import org.kornspur.api.security.Refusal;

/** The result of authenticating a request. */
public sealed interface AuthenticationResult {

  /** Authenticated. */
  record Known(Caller caller) implements AuthenticationResult {}

  /** Authenticated by a password that the administrator knows too and that must be changed. */
  record Issued(Caller caller) implements AuthenticationResult {}

  /** Not authenticated, or tried too often. */
  record Refused(Refusal refusal) implements AuthenticationResult {}
}
