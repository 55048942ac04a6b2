package org.kornspur.processors.advice;

import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import org.kornspur.contract.CropRole;
import org.kornspur.contract.FieldCropDeclared;
import org.kornspur.contract.GeoPoint;
import org.kornspur.contract.PollenSourceKind;
import org.kornspur.contract.PollenSourceSeen;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.dossier.Report.Neighbour;
import org.kornspur.processors.ground.Area;
import org.kornspur.processors.ground.FloweringOverlap;
import org.kornspur.processors.ground.FloweringWindow;
import org.kornspur.processors.ground.InvalidOutline;
import org.kornspur.processors.ground.Outline;
import org.kornspur.processors.ground.SourceAreaByDistance;
import org.kornspur.processors.ground.Wind;
import org.kornspur.processors.statistics.ExpectedHybridity.ForeignSource;
import org.kornspur.processors.statistics.SourceExtent;
import org.kornspur.processors.statistics.TriangularRange;

/**
 * A source of foreign pollen near a crop, as the forecast takes it.
 *
 * @param source another crop, or a source that somebody saw
 * @param distanceM metres between the nearest points of the outlines
 * @param areaHa area of the source, hectares
 * @param areaKnown false where the outline could not be read and one hectare was taken
 * @param byOutline whether it is taken by its outline and that of the crop; else as a square that
 *     turns one side to the crop
 * @param extent where its plants stand; empty where it does not count
 * @param relativeDensity pollen-shedding plants for each square metre, as a part of all plants in
 *     the crop for each square metre; an assumption by the kind of source, without a source
 * @param overlap part of the crop's flowering in which it sheds; 0 where it does not count
 * @param note how the days of flowering were taken
 * @param factId fact that tells of it
 */
public record ForeignPollen(
    Subject source,
    double distanceM,
    double areaHa,
    boolean areaKnown,
    boolean byOutline,
    Optional<SourceExtent> extent,
    double relativeDensity,
    double overlap,
    ForecastStatement note,
    String factId) {
  private static final double UNKNOWN_AREA_HA = 1;
  private static final double SQUARE_METRES_IN_HECTARE = 10_000;

  /** Whether the forecast counts it. */
  public boolean counts() {
    return overlap > 0;
  }

  ForeignSource asSource() {
    return new ForeignSource(
        extent.orElseThrow(), relativeDensity, TriangularRange.exactly(overlap));
  }

  static ForeignPollen of(
      FloweringWindow flowering,
      Optional<Outline> cropOutline,
      Neighbour neighbour,
      Function<Subject, Dossier> dossiers,
      Optional<Wind> wind) {
    Dossier source = dossiers.apply(neighbour.source());
    Optional<Outline> outline = outline(source).flatMap(ForeignPollen::readable);
    double areaHa = outline.map(Area::hectares).orElse(UNKNOWN_AREA_HA);
    Meeting meeting = Meeting.of(flowering, neighbour);
    Optional<SourceExtent> extent =
        meeting.overlap == 0
            ? Optional.empty()
            : Optional.of(
                outline
                    .flatMap(
                        from ->
                            cropOutline.<SourceExtent>map(
                                to -> SourceAreaByDistance.between(from, to, wind)))
                    .orElseGet(() -> square(neighbour, areaHa, wind)));
    return new ForeignPollen(
        neighbour.source(),
        neighbour.distanceM(),
        areaHa,
        outline.isPresent(),
        outline.isPresent() && cropOutline.isPresent(),
        extent,
        density(source, neighbour),
        meeting.overlap,
        meeting.note,
        neighbour.factId());
  }

  private static Optional<List<GeoPoint>> outline(Dossier source) {
    return source
        .crop()
        .map(FieldCropDeclared::getOutline)
        .or(() -> source.latest(PollenSourceSeen.class).map(PollenSourceSeen::getOutline));
  }

  private static SourceExtent square(Neighbour neighbour, double areaHa, Optional<Wind> wind) {
    double sideM = Math.sqrt(areaHa * SQUARE_METRES_IN_HECTARE);
    double factor =
        wind.map(blows -> blows.factor(neighbour.onSource(), neighbour.onCrop())).orElse(1.0);
    return new SourceExtent.Facing(neighbour.distanceM(), sideM, sideM, factor);
  }

  /** The outline; empty where it cannot be read. */
  static Optional<Outline> readable(List<GeoPoint> corners) {
    try {
      return Optional.of(Outline.of(corners));
    } catch (InvalidOutline unreadable) {
      // the join placed it by an outline that a correction has since spoilt
      return Optional.empty();
    }
  }

  private static double density(Dossier source, Neighbour neighbour) {
    return neighbour
        .sourceKind()
        .map(ForeignPollen::density)
        .orElseGet(() -> source.crop().map(crop -> density(crop.getRole())).orElse(1.0));
  }

  private static double density(PollenSourceKind kind) {
    return switch (kind) {
      case RYE_CROP, HYBRID_RYE_CROP -> 1;
      case RYE_IN_MIXTURE -> 0.5;
      case VOLUNTEER_RYE, FERAL_RYE -> 0.1;
    };
  }

  /** Only the pollen parent sheds in a mixture or beside a sterile female. */
  private static double density(CropRole role) {
    return switch (role) {
      case MAINTAINER, POLLINATOR, FERTILE_LINE -> 1;
      case STERILE_FEMALE -> 0.3;
      case F1_MIXTURE -> 0.1;
    };
  }

  /** What part of the crop's flowering it sheds in; unknown days count as shedding. */
  private record Meeting(double overlap, ForecastStatement note) {

    static Meeting of(FloweringWindow flowering, Neighbour neighbour) {
      FloweringOverlap meeting = neighbour.flowersWith(flowering);
      if (meeting instanceof FloweringOverlap.Apart apart) {
        return new Meeting(
            0, new ForecastStatement.Apart(apart.earlierEnds(), apart.laterBegins()));
      }
      if (meeting instanceof FloweringOverlap.Together together) {
        return new Meeting(
            part(together.days(), flowering),
            new ForecastStatement.Together(together.from(), together.to()));
      }
      FloweringOverlap.Assumed assumed = (FloweringOverlap.Assumed) meeting;
      double overlap =
          assumed.mostDays().isPresent() ? part(assumed.mostDays().getAsLong(), flowering) : 1;
      return new Meeting(overlap, new ForecastStatement.AssumedTogether(assumed.unknown()));
    }

    private static double part(long days, FloweringWindow flowering) {
      if (!flowering.isKnown()) {
        return 1;
      }
      return Math.min(1, (double) days / flowering.days());
    }
  }
}
