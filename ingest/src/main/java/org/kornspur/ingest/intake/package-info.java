/**
 * What is wrong with a fact by itself: values against the limits of the contract, and rules that
 * tie several fields of one fact together. Needs no other fact, no clock and no network.
 *
 * <p>{@link org.kornspur.ingest.intake.FactChecks} is the way in. Limits of single fields stand as
 * annotations in {@code src/main/avro}; rules over several fields stand in the classes {@code
 * …Checks}, one method for each fact type.
 */
package org.kornspur.ingest.intake;
