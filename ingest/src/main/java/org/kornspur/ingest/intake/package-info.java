/**
 * What is wrong with a fact by itself: values against the limits of the contract, and rules that
 * tie several fields of one fact together. Needs no other fact, no clock and no network.
 *
 * <p>{@link org.kornspur.ingest.intake.FactChecks} is the way in. Limits of single fields stand as
 * annotations in {@code src/main/avro}; each rule over several fields has a class here, named after
 * the fact type.
 */
package org.kornspur.ingest.intake;
