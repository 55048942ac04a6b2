package org.kornspur.api.web;

import jakarta.ws.rs.core.UriInfo;
import java.util.Optional;
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
    int pages = Math.max(1, list.pages());
    return new Paging(
        list.page(),
        pages,
        list.total(),
        list.page() > 1 ? Optional.of(address(uri, list.page() - 1)) : Optional.empty(),
        list.page() < pages ? Optional.of(address(uri, list.page() + 1)) : Optional.empty());
  }

  private static String address(UriInfo uri, int page) {
    var address = uri.getRequestUriBuilder().replaceQueryParam("page", page).build();
    return address.getRawPath() + "?" + address.getRawQuery();
  }
}
