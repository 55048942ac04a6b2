package org.kornspur.api.security.login;

import org.kornspur.api.security.Caller;
import org.kornspur.api.security.Refusal;

/** What became of somebody who said who they are. */
public sealed interface AuthenticationResult {

  /** It is so. */
  record Known(Caller caller) implements AuthenticationResult {}

  /** It is so by a password that the administrator has seen as well. */
  record Issued(Caller caller) implements AuthenticationResult {}

  /** It is not so, or was said too often. */
  record Refused(Refusal refusal) implements AuthenticationResult {}
}
