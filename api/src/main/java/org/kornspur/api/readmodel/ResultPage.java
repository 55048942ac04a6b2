package org.kornspur.api.readmodel;

import java.util.List;
import java.util.function.Function;
import java.util.stream.Stream;

/**
 * One page of a list.
 *
 * @param page from 1
 * @param size entries a page, at most
 * @param total entries that match, on all pages
 * @param items entries of this page
 */
public record ResultPage<T>(int page, int size, int total, List<T> items) {

  /** One page of all that match. */
  public static <T> ResultPage<T> of(Stream<T> all, int page, int size) {
    List<T> matches = all.toList();
    return new ResultPage<>(
        page, size, matches.size(), matches.stream().skip((page - 1L) * size).limit(size).toList());
  }

  /** The same page of something else. */
  public <R> ResultPage<R> map(Function<T, R> into) {
    return new ResultPage<>(page, size, total, items.stream().map(into).toList());
  }
}
