package org.kornspur.ingest.file;

import java.util.Map;
import java.util.Set;
import org.kornspur.ingest.contract.FactType;

/**
 * Names in GeoJSON that stand for no field of a fact; all others are paths into the fact, as the
 * columns of other tables are.
 */
public final class GeoJsonFields {
  /** Says what a feature is. */
  public static final String FEATURE = "feature";

  public static final String FIELD_CROP = "FIELD_CROP";
  public static final String POLLEN_SOURCE = "POLLEN_SOURCE";

  /** Calculated of a field crop, and no fact. */
  public static final String ISOLATION_ZONE = "ISOLATION_ZONE";

  /** The field that the geometry is. */
  public static final String OUTLINE = "outline";

  /**
   * Whether the corners are on record in the other direction: GeoJSON has outer rings
   * counterclockwise (RFC 7946, section 3.1.6).
   */
  public static final String CLOCKWISE = "outlineClockwise";

  /** Whether the first corner is on record again as the last. */
  public static final String CLOSED = "outlineClosed";

  public static final String STANDING = "standing";
  public static final String FLOWERS_FROM = "flowersFrom";
  public static final String FLOWERS_TO = "flowersTo";
  public static final String DISTANCE = "requiredDistanceM";
  public static final String DISTANCE_SOURCE = "requiredBy";

  static final Set<String> CALCULATED =
      Set.of(CLOCKWISE, CLOSED, STANDING, FLOWERS_FROM, FLOWERS_TO, DISTANCE, DISTANCE_SOURCE);

  static final Map<String, FactType> FACTS =
      Map.of(
          FIELD_CROP, FactType.FIELD_CROP_DECLARED,
          POLLEN_SOURCE, FactType.POLLEN_SOURCE_SEEN);

  private GeoJsonFields() {}
}
