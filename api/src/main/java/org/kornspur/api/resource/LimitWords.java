package org.kornspur.api.resource;

import java.util.List;

/** Says in one language what a parameter may be; each answer follows on "expected". */
public interface LimitWords {

  /** The words of problem documents. */
  LimitWords ENGLISH =
      new LimitWords() {
        @Override
        public String whole(int least, int most) {
          return "a whole number from " + least + " to " + most;
        }

        @Override
        public String decimal(double least, double most) {
          return "a number from " + least + " to " + most;
        }

        @Override
        public String characters(int most) {
          return "at most " + most + " characters";
        }

        @Override
        public String time() {
          return "a time with zone in ISO 8601, as 2024-06-01T00:00:00Z";
        }

        @Override
        public String oneOf(List<String> values) {
          return "one of " + String.join(", ", values);
        }

        @Override
        public String named(List<String> names) {
          return names.isEmpty()
              ? "no parameter at this address"
              : "one of the parameters " + String.join(", ", names);
        }
      };

  /** A whole number within limits, both included. */
  String whole(int least, int most);

  /** A number within limits, both included. */
  String decimal(double least, double most);

  /** A text that is not too long. */
  String characters(int most);

  /** A moment with its zone. */
  String time();

  /** One of these values. */
  String oneOf(List<String> values);

  /** A parameter with one of these names; none at all where there is no name. */
  String named(List<String> names);
}
