package org.kornspur.api.readmodel;

import java.util.ArrayList;
import java.util.List;

/** Counts what matches and keeps one page of it. */
final class PageBuilder<T> {
  private final int page;
  private final int size;
  private final long first;
  private final List<T> items = new ArrayList<>();
  private int total;

  PageBuilder(int page, int size) {
    this.page = page;
    this.size = size;
    this.first = (page - 1L) * size;
  }

  void add(T item) {
    if (total >= first && items.size() < size) {
      items.add(item);
    }
    total++;
  }

  ResultPage<T> slice() {
    return new ResultPage<>(page, size, total, List.copyOf(items));
  }
}
