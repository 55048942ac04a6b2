package org.kornspur.api.query.plan;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.util.List;
import org.eclipse.microprofile.openapi.annotations.media.Schema;
import org.kornspur.api.http.JsonBody;
import org.kornspur.ingest.problem.Expected;
import org.kornspur.processors.ground.GeoPosition;
import org.kornspur.processors.plan.field.FieldName;

/**
 * What a person decided of fields.
 *
 * @param rulebookId null for the book that the latest crop of a seed names
 * @param store null where ways are not counted
 */
@JsonInclude(JsonInclude.Include.NON_NULL)
@Schema(description = "Fields, growers and the way from the store, as a person decided")
public record FieldChoices(
    @Schema(description = "Crops on fields") List<Placed> placed,
    @Schema(description = "What growers can grow; no limit for others") List<Grower> growers,
    @Schema(description = "Rulebook of all crops; left out, that of the latest crop of the seed")
        String rulebookId,
    @Schema(description = "From where the way to a field is counted") GeoPosition store) {

  @Schema(description = "A crop on a field")
  @JsonInclude(JsonInclude.Include.NON_NULL)
  public record Placed(
      @Schema(required = true, description = "Component or hybrid") String seedId,
      @Schema(required = true, description = "Year of harvest") Integer year,
      @Schema(required = true, description = "Who grows it") String enterpriseId,
      @Schema(required = true, description = "The field as the grower calls it") String fieldId,
      @Schema(description = "Hectares; the whole field where left out") Double areaHa) {

    FieldName field() {
      return new FieldName(enterpriseId, fieldId);
    }
  }

  @Schema(description = "The most that a grower can grow of one harvest")
  public record Grower(
      @Schema(required = true) String enterpriseId, @Schema(required = true) Double mostHa) {}

  public FieldChoices {
    placed = placed == null ? List.of() : List.copyOf(placed);
    growers = growers == null ? List.of() : List.copyOf(growers);
  }

  static FieldChoices none() {
    return new FieldChoices(null, null, null, null);
  }

  /** Notes what is missing. */
  void check(JsonBody body) {
    for (int i = 0; i < placed.size(); i++) {
      String at = "fields.placed[" + i + "].";
      body.required(at + "seedId", placed.get(i).seedId(), new Expected.Id("component"));
      body.required(at + "year", placed.get(i).year(), new Expected.WholeNumber());
      body.required(
          at + "enterpriseId", placed.get(i).enterpriseId(), new Expected.Id("enterprise"));
      body.required(at + "fieldId", placed.get(i).fieldId(), new Expected.Text());
    }
    for (int i = 0; i < growers.size(); i++) {
      String at = "fields.growers[" + i + "].";
      body.required(
          at + "enterpriseId", growers.get(i).enterpriseId(), new Expected.Id("enterprise"));
      body.required(at + "mostHa", growers.get(i).mostHa(), new Expected.Decimal());
    }
  }
}
