/**
 * What can be wrong with an input, as data. The texts are in {@code resources/text}, one file a
 * language; {@link org.kornspur.ingest.intake.ProblemWords} writes them.
 */
package org.kornspur.ingest.problem;
