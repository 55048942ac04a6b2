package org.kornspur.processors.gates;

import java.time.LocalDate;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.dossier.Report.Neighbour;
import org.kornspur.processors.ground.FloweringOverlap;
import org.kornspur.processors.standards.Limit;
import org.kornspur.processors.standards.Quantity;
import org.kornspur.processors.standards.Rulebook;

/**
 * The foreign pollen that counts against a seed crop, each source with the distance that it must
 * keep, as {@link IsolationGate} judges it. One source stands in it more than once where reports of
 * it are not settled.
 *
 * @param usual the distance that the rulebook asks for, metres; with a shield where one is accepted
 * @param sources nearest first
 */
public record IsolationSources(Limit usual, List<Source> sources) {

  /**
   * A source with the distance that it is to keep.
   *
   * @param mayBeApart whether it may not flower together with the crop, by a day not on record
   * @param confirmed whether more than a grower of another enterprise says so
   */
  public record Source(Neighbour neighbour, Limit limit, boolean mayBeApart, boolean confirmed) {

    public boolean isTooNear() {
      return marginM() < 0;
    }

    /** Whether it speaks against the crop at once. */
    public boolean isCertain() {
      return !mayBeApart && confirmed;
    }

    double marginM() {
      return limit.margin(neighbour.distanceM());
    }
  }

  /** Empty where the crop is not declared, or the rulebook asks for no distance. */
  public static Optional<IsolationSources> of(Dossier dossier, Rulebook rulebook) {
    return SeedCrop.of(dossier, rulebook).flatMap(IsolationSources::of);
  }

  /** Each source once: as it is reported too near, then as it is reported surest. */
  public Map<Subject, Source> surestOfEach() {
    Map<Subject, Source> surest = new LinkedHashMap<>();
    sources.stream()
        .sorted(Comparator.comparing(Source::isTooNear).thenComparing(Source::isCertain).reversed())
        .forEach(source -> surest.putIfAbsent(source.neighbour().source(), source));
    return surest;
  }

  static Optional<IsolationSources> of(SeedCrop crop) {
    return limit(crop)
        .map(
            usual ->
                new IsolationSources(
                    usual,
                    crop.dossier().neighbourReports().stream()
                        .flatMap(neighbour -> source(crop, neighbour, usual).stream())
                        .toList()));
  }

  private static Optional<Limit> limit(SeedCrop crop) {
    Optional<Limit> plain = crop.limit(Quantity.ISOLATION_DISTANCE);
    return plain.isPresent() && isShielded(crop)
        ? crop.limit(Quantity.ISOLATION_DISTANCE_SHIELDED).or(() -> plain)
        : plain;
  }

  private static boolean isShielded(SeedCrop crop) {
    return crop.isAccepted(crop.declaration().getShieldAccepted());
  }

  /** Empty where it does not flower together and the book leaves it out for that. */
  private static Optional<Source> source(SeedCrop crop, Neighbour neighbour, Limit usual) {
    FloweringOverlap overlap = neighbour.flowersWith(crop.flowering());
    boolean confirmed =
        neighbour.reportedBy().isEmpty() || neighbour.reportedBy().equals(crop.dossier().holder());
    Optional<Limit> whenApart =
        isShielded(crop) || isGoneBefore(crop, neighbour, overlap)
            ? Optional.empty()
            : crop.limit(Quantity.ISOLATION_DISTANCE_FLOWERING_APART);
    if (!overlap.counts()) {
      return whenApart.map(limit -> new Source(neighbour, limit, false, confirmed));
    }
    boolean mayBeApart = mayBeApart(overlap, neighbour) && whenApart.isEmpty();
    return Optional.of(
        new Source(neighbour, limitFor(crop, neighbour, usual), mayBeApart, confirmed));
  }

  /** Whether it is, or may be, a seen source that ended before the crop flowered: no stand then. */
  private static boolean isGoneBefore(
      SeedCrop crop, Neighbour neighbour, FloweringOverlap overlap) {
    Optional<LocalDate> begins = crop.flowering().from();
    boolean hasEnded = neighbour.sourceKind().isPresent() && neighbour.sheddingTo().isPresent();
    return hasEnded
        && begins
            .map(day -> neighbour.sheddingTo().orElseThrow().isBefore(day))
            .orElse(overlap.counts());
  }

  /** Whether a day of the crop that nobody put on record could keep the two apart. */
  private static boolean mayBeApart(FloweringOverlap overlap, Neighbour neighbour) {
    return overlap instanceof FloweringOverlap.Assumed assumed
        && ((assumed.unknown().contains(FloweringOverlap.UnknownDay.FIRST_OF_CROP)
                && neighbour.sheddingTo().isPresent())
            || (assumed.unknown().contains(FloweringOverlap.UnknownDay.LAST_OF_CROP)
                && neighbour.sheddingFrom().isPresent()));
  }

  /** A longer distance for a large source, where the book has one and no shield is accepted. */
  private static Limit limitFor(SeedCrop crop, Neighbour neighbour, Limit usual) {
    boolean large =
        crop.limit(Quantity.LARGE_SOURCE_AREA)
            .map(area -> area.holds(neighbour.areaHa()))
            .orElse(false);
    return large && !isShielded(crop)
        ? crop.limit(Quantity.ISOLATION_DISTANCE_LARGE_SOURCE).orElse(usual)
        : usual;
  }
}
