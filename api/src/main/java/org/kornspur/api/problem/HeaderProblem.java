package org.kornspur.api.problem;

/** What the address and the headers of a request must be. */
public sealed interface HeaderProblem extends RequestReason {
  record NoMediaType() implements HeaderProblem {}

  record Packed() implements HeaderProblem {}

  record AddressTooLong(int most) implements HeaderProblem {}

  record HeadersTooLong(int most) implements HeaderProblem {}

  record NoErrorBehaviour() implements HeaderProblem {}
}
