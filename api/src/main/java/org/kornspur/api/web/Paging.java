package org.kornspur.api.web;

import jakarta.ws.rs.core.UriInfo;
import java.util.Optional;
import java.util.function.IntFunction;
import org.kornspur.api.query.view.PageView;
import org.kornspur.api.readmodel.ResultPage;

/**
 * Where in a list somebody is.
 *
 * @param page from 1
 * @param previous address of the page before; empty on the first
 * @param next address of the page after; empty on the last
 */
public record Paging(
    int page, int pages, int total, Optional<String> previous, Optional<String> next) {

  /** Of a list that has nothing. */
  static Paging none() {
    return new Paging(1, 1, 0, Optional.empty(), Optional.empty());
  }

  /** Of this page of a list, with all other parameters of the address kept. */
  public static Paging of(PageView<?> list, UriInfo uri) {
    return of(list, page -> address(uri, page));
  }

  /** Of this page of a list whose pages have these addresses. */
  public static Paging of(PageView<?> list, IntFunction<String> addressOf) {
    return of(list.page(), list.pages(), list.total(), addressOf);
  }

  /** Of this page of a list that stands still, with all other parameters of the address kept. */
  public static Paging of(ResultPage<?> list, UriInfo uri) {
    return of(
        list.page(),
        (list.total() + list.size() - 1) / list.size(),
        list.total(),
        page -> address(uri, page));
  }

  private static Paging of(int page, int most, int total, IntFunction<String> addressOf) {
    int pages = Math.max(1, most);
    return new Paging(
        page,
        pages,
        total,
        page > 1 ? Optional.of(addressOf.apply(page - 1)) : Optional.empty(),
        page < pages ? Optional.of(addressOf.apply(page + 1)) : Optional.empty());
  }

  private static String address(UriInfo uri, int page) {
    var address = uri.getRequestUriBuilder().replaceQueryParam("page", page).build();
    return address.getRawPath() + "?" + address.getRawQuery();
  }
}
