package org.kornspur.api.query.view;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import org.eclipse.microprofile.openapi.annotations.media.Schema;
import org.kornspur.api.security.visibility.Visibility;
import org.kornspur.contract.FieldCropDeclared;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.dossier.Report;
import org.kornspur.processors.ground.GeoPosition;

/** Foreign pollen around a crop, ready to be drawn on a map. */
@Schema(description = "Foreign pollen around a crop, nearest first; positions are WGS84 degrees")
public record NeighboursView(
    SubjectLink crop,
    @Schema(description = "Corners of the crop; empty while it is not declared")
        List<GeoPosition> outline,
    @Schema(description = "How far the ground is looked at, metres", examples = "2000")
        double reachM,
    List<NeighbourView> neighbours,
    AsOf asOf) {

  /** One source of foreign pollen. */
  public record NeighbourView(
      SubjectLink source,
      @Schema(
              description =
                  "Metres between the nearest points on the ellipsoid; 0 where they touch",
              examples = "318.6")
          double distanceM,
      @Schema(
              nullable = true,
              description =
                  "Area of the source, hectares; null for a crop of another, of which only distance"
                      + " and nearest point are told")
          Double areaHa,
      GeoPosition nearestOnCrop,
      GeoPosition nearestOnSource,
      @Schema(
              description =
                  "False where a grower alone reports it; then it counts against that grower's"
                      + " crops only, and evidence is owed of others")
          boolean confirmed,
      @Schema(nullable = true, description = "Kind of a seen source; null for a crop of ours")
          String sourceKind,
      @Schema(nullable = true, description = "First day on which it can shed; null where not known")
          LocalDate sheddingFrom,
      @Schema(nullable = true, description = "Last day on which it can shed; null where not known")
          LocalDate sheddingTo,
      @Schema(nullable = true, description = "Fact that tells of it; null for a crop of another")
          String factId) {

    static NeighbourView of(Report.Neighbour neighbour, Visibility visibility) {
      Optional<Report.Neighbour> told =
          Optional.of(neighbour).filter(near -> isTold(near, visibility));
      return new NeighbourView(
          SubjectLink.of(neighbour.source()),
          neighbour.distanceM(),
          told.map(Report.Neighbour::areaHa).orElse(null),
          neighbour.onCrop(),
          neighbour.onSource(),
          neighbour.reportedBy().isEmpty(),
          told.flatMap(Report.Neighbour::sourceKind).map(Enum::name).orElse(null),
          told.flatMap(Report.Neighbour::sheddingFrom).orElse(null),
          told.flatMap(Report.Neighbour::sheddingTo).orElse(null),
          told.map(Report.Neighbour::factId).orElse(null));
    }
  }

  /** Whether more is told of a neighbour than what one sees from the road. */
  public static boolean isTold(Report.Neighbour neighbour, Visibility visibility) {
    return neighbour.sourceKind().isPresent() || visibility.sees(neighbour.source());
  }

  public static NeighboursView of(Dossier crop, double reachM, Visibility visibility, AsOf asOf) {
    return new NeighboursView(
        SubjectLink.of(crop.subject()),
        crop.crop().map(NeighboursView::outline).orElse(List.of()),
        reachM,
        crop.neighbours().stream().map(near -> NeighbourView.of(near, visibility)).toList(),
        asOf);
  }

  private static List<GeoPosition> outline(FieldCropDeclared crop) {
    return crop.getOutline().stream().map(GeoPosition::of).toList();
  }
}
