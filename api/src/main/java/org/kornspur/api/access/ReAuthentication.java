package org.kornspur.api.access;

import java.util.Optional;

/**
 * Makes sure that the person who signs is there at the time of signing (model: 21 CFR 11.200 (a)).
 */
public interface ReAuthentication {

  /**
   * Asks for proof anew: with a people file the password, with tokens one that was got by a log-in
   * not longer ago than {@code kornspur.signing-window} (otherwise 5 minutes).
   *
   * @param password as given in the body of the request that signs; empty where tokens are used
   * @throws org.kornspur.api.problem.ApiProblem if the proof is missing, wrong or too old
   */
  void require(Caller caller, Optional<String> password);
}
