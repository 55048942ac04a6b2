package org.kornspur.api.access;

/** What became of somebody who said who they are. */
sealed interface AuthenticationResult {

  /** It is so. */
  record Known(Caller caller) implements AuthenticationResult {}

  /** It is so by a password that the administrator has seen as well. */
  record Issued(Caller caller) implements AuthenticationResult {}

  /** It is not so, or was said too often. */
  record Refused(Refusal refusal) implements AuthenticationResult {}
}
