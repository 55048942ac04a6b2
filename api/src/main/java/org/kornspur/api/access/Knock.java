package org.kornspur.api.access;

/** What became of somebody who said who they are. */
sealed interface Knock {

  /** It is so. */
  record Known(Caller caller) implements Knock {}

  /** It is so by a password that the administrator has seen as well. */
  record Issued(Caller caller) implements Knock {}

  /** It is not so, or was said too often. */
  record Refused(Refusal refusal) implements Knock {}
}
