package org.kornspur.api.readmodel;

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
public record ResultPage<T>(int page, int size, int total, List<T> items) {

  /** The same page of something else. */
  public <R> ResultPage<R> map(Function<T, R> into) {
    return new ResultPage<>(page, size, total, items.stream().map(into).toList());
  }
}
