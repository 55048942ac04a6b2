package org.kornspur.api.web;

import jakarta.ws.rs.core.UriInfo;
import java.util.Optional;
import java.util.function.IntFunction;
import org.kornspur.api.query.view.PageView;

/**
 * Where in a list somebody is.
 *
 * @param page from 1
 * @param previous address of the page before; empty on the first
 * @param next address of the page after; empty on the last
 */
public record Paging(
    int page, int pages, int total, Optional<String> previous, Optional<String> next) {

  /** Of this page of a list, with all other parameters of the address kept. */
  public static Paging of(PageView<?> list, UriInfo uri) {
    return of(list, page -> address(uri, page));
  }

  /** Of this page of a list whose pages have these addresses. */
  public static Paging of(PageView<?> list, IntFunction<String> addressOf) {
    int page = list.page();
    int pages = Math.max(1, list.pages());
    return new Paging(
        page,
        pages,
        list.total(),
        page > 1 ? Optional.of(addressOf.apply(page - 1)) : Optional.empty(),
        page < pages ? Optional.of(addressOf.apply(page + 1)) : Optional.empty());
  }

  private static String address(UriInfo uri, int page) {
    var address = uri.getRequestUriBuilder().replaceQueryParam("page", page).build();
    return address.getRawPath() + "?" + address.getRawQuery();
  }
}
