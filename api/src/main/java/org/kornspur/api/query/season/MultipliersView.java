package org.kornspur.api.query.season;

import java.util.List;
import org.eclipse.microprofile.openapi.annotations.media.Schema;
import org.kornspur.api.query.view.AsOf;

@Schema(description = "Multipliers side by side in one season, by id; of what the caller sees")
public record MultipliersView(
    @Schema(description = "Year of harvest", examples = "2025") int cropYear,
    @Schema(nullable = true, description = "Null where all hybrids were asked for") String hybridId,
    List<Multiplier> lots,
    List<Multiplier> crops,
    AsOf asOf) {

  @Schema(description = "The crops or lots of one multiplier")
  public record Multiplier(
      @Schema(examples = "ENT-MULT-EAST") String holder,
      @Schema(nullable = true, description = "Its name; null where none is declared") String name,
      SeasonView season) {}
}
