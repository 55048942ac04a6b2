/**
 * The contract: fact types, ids and subjects, as the Avro schemas in {@code src/main/avro} give
 * them.
 */
package org.kornspur.ingest.contract;
