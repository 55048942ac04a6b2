package org.kornspur.api.feed;

import java.util.List;
import java.util.function.Function;

/**
 * One page of a list.
 *
 * @param page from 1
 * @param size entries a page, at most
 * @param total entries that match, on all pages
 * @param items entries of this page
 */
public record Slice<T>(int page, int size, int total, List<T> items) {

  /** The same page of something else. */
  public <R> Slice<R> map(Function<T, R> into) {
    return new Slice<>(page, size, total, items.stream().map(into).toList());
  }
}
