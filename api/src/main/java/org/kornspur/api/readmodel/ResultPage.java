package org.kornspur.api.readmodel;

import java.util.ArrayList;
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

  /** One page of all that match; the others are counted and not kept. */
  public static <T> ResultPage<T> of(Stream<T> all, int page, int size) {
    long first = (page - 1L) * size;
    List<T> items = new ArrayList<>();
    int total = 0;
    for (T match : (Iterable<T>) all::iterator) {
      if (total >= first && items.size() < size) {
        items.add(match);
      }
      total++;
    }
    return new ResultPage<>(page, size, total, List.copyOf(items));
  }

  /** The same page of something else. */
  public <R> ResultPage<R> map(Function<T, R> into) {
    return new ResultPage<>(page, size, total, items.stream().map(into).toList());
  }
}
