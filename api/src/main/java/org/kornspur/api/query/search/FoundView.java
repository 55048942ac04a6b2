package org.kornspur.api.query.search;

import org.eclipse.microprofile.openapi.annotations.media.Schema;
import org.kornspur.api.query.view.StandingLineView;
import org.kornspur.api.text.FirstReasonWords;

@Schema(description = "A crop or lot that was found")
public record FoundView(
    @Schema(description = "By what it was found") SearchHit.By by,
    @Schema(description = "What matched, as it was written", examples = "F1-24-007") String text,
    StandingLineView standing) {

  static FoundView of(SearchHit found, FirstReasonWords words) {
    return new FoundView(found.by(), found.text(), StandingLineView.of(found.row(), words));
  }
}
