package org.kornspur.ingest.file;

import java.time.Instant;
import java.time.ZoneId;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.kornspur.contract.GeoPoint;
import org.kornspur.ingest.contract.FactType;

/**
 * How a person's table is to be read.
 *
 * @param languages whose words its columns and cells may have
 * @param zone of times that have none
 * @param kind what its rows are; empty where the name of the sheet or file says so
 * @param columns paths of columns whose names are of no field, by name; an empty path leaves the
 *     column out
 * @param decimalMark as a person said; empty where the file is to tell
 * @param dayOrder as a person said; empty where the file is to tell
 * @param recordedBy of rows that do not say
 * @param recordedAt of rows that do not say
 * @param owner whose rows these are; the same row of another owner has another id
 * @param near a place near the fields of the site, to tell exchanged coordinates; empty where none
 *     is known
 */
public record TableReadingOptions(
    List<TableWords> languages,
    ZoneId zone,
    Optional<FactType> kind,
    Map<String, String> columns,
    Optional<DecimalMark> decimalMark,
    Optional<DayOrder> dayOrder,
    String recordedBy,
    Instant recordedAt,
    String owner,
    Optional<GeoPoint> near) {}
