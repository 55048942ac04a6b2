package org.kornspur.api.query.view;

import java.util.List;
import java.util.function.Function;
import org.eclipse.microprofile.openapi.annotations.media.Schema;
import org.kornspur.api.readmodel.ResultPage;

@Schema(description = "One page of a list")
public record PageView<T>(
    @Schema(description = "Number of this page, from 1", examples = "1") int page,
    @Schema(description = "Entries a page, at most", examples = "50") int size,
    @Schema(description = "Entries on all pages", examples = "150") int total,
    @Schema(description = "Number of pages", examples = "3") int pages,
    List<T> items,
    @Schema(description = "How complete the data is") AsOf asOf) {

  /** The page in the shape of the interface. */
  public static <S, T> PageView<T> of(ResultPage<S> slice, Function<S, T> shape, AsOf asOf) {
    int pages = (slice.total() + slice.size() - 1) / slice.size();
    return new PageView<>(
        slice.page(), slice.size(), slice.total(), pages, slice.map(shape).items(), asOf);
  }
}
