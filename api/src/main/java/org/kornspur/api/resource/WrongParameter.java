package org.kornspur.api.resource;

import java.util.function.Function;
import org.kornspur.ingest.intake.Problem;

/**
 * A parameter of a request that cannot be heeded.
 *
 * @param name as it stands in the address
 * @param value as it may be shown to a person; see {@link Problem#shown}
 * @param limit what would be allowed, in the words of a language
 * @param remedy what to do about it
 */
public record WrongParameter(
    String name, String value, Function<LimitWords, String> limit, String remedy) {

  Problem problem() {
    return new Problem(name, value, limit.apply(LimitWords.ENGLISH), remedy);
  }
}
