/**
 * Loads a folder of fact files.
 *
 * <p>{@code .json}: one fact, or an array of facts, in the shape that {@link
 * org.kornspur.ingest.json} describes; at most 64 MB a file. {@code .ndjson}: one such fact a line.
 *
 * <p>{@code .csv}: a table in UTF-8, with or without byte order mark, lines ending in LF or CR LF,
 * cells separated by commas (or semicolons, or tabs, where the header line holds no comma) and
 * quoted as in RFC 4180, except that a row is one line. The type of fact is the word with which the
 * file name begins ({@code GerminationTest.csv}, {@code GerminationTest-2024.csv}), or stands in a
 * column {@code type}, which then wins. The other columns are paths into the fact; {@code header.}
 * may be left off. An empty cell is an absent value. Numbers have a decimal point, instants and
 * dates are ISO 8601, flags {@code true} or {@code false}.
 *
 * <p>{@code .xlsx}, {@code .geojson}, and a {@code .csv} whose columns have the names that people
 * see: a table as people make them, read as {@link FactTable} reads it. Nobody can be asked about
 * it: a column of no field refuses the file.
 *
 * <p>Lists come in numbered columns, or in one cell with {@code ;} between elements and {@code =},
 * {@code /} or a space between the fields of an element, in the order of the contract:
 *
 * <pre>{@code
 * factId,recordedBy,happenedAt,recordedAt,sourceDocument,cropId,areaHa,sown
 * sow-1,planter-2,2024-09-28T09:00:00+02:00,2024-09-28T18:00:00+02:00,sheet 7,C-25-01,12.5,LOT-1=1200.5;LOT-2=300
 *
 * factId,...,lotId,sampleId,laboratoryId,replicates[0].seeds,replicates[0].normalSeedlings,...
 * factId,...,lotId,sampleId,laboratoryId,replicates
 * germ-1,...,F1-24-007,S-24-0311,lab-north,100/93;100/95;100/94;100/93
 *
 * factId,...,outline
 * crop-1,...,10.10 52.30;10.12 52.30;10.12 52.31
 * }</pre>
 *
 * <p>An input, that is a line or an element of an array, has at most 1,000,000 bytes. One that is
 * refused costs no other; each is reported with file, line and all that is wrong, and goes to the
 * quarantine whole (of a line that is too long, its first 65,536 bytes). Symbolic links are not
 * followed; archives are refused.
 */
package org.kornspur.ingest.file;
