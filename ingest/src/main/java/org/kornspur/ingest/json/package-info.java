/**
 * Facts as plain JSON.
 *
 * <p>A fact is one object with its {@code type} and the fields of that type in the contract:
 *
 * <pre>{@code
 * {
 *   "type": "GerminationTest",
 *   "header": {
 *     "factId": "germ-0001", "recordedBy": "lab-03",
 *     "happenedAt": "2024-09-02T10:00:00+02:00", "recordedAt": "2024-09-02T10:05:00+02:00",
 *     "sourceDocument": "report 24-117"
 *   },
 *   "lotId": "F1-24-007", "sampleId": "S-24-0311", "laboratoryId": "lab-north",
 *   "replicates": [{"seeds": 100, "normalSeedlings": 93}, {"seeds": 100, "normalSeedlings": 95}]
 * }
 * }</pre>
 *
 * <p>{@link org.kornspur.ingest.json.FactParser} reads and checks; {@link
 * org.kornspur.ingest.json.AvroJson} writes the same shape back.
 */
package org.kornspur.ingest.json;
