/**
 * How far a count or a test may be believed: exact limits, published tolerance tables, lot
 * heterogeneity, sampling, sequential counts, blend arithmetic and expected hybridity.
 *
 * <p>Everything here is a pure function of its arguments. Published tables lie beside the classes
 * as data, each row with its source and whether that source was read; where a table is published,
 * the table governs, and theory stands beside it. Shares are fractions between 0 and 1, percentages
 * are named so.
 */
package org.kornspur.processors.statistics;
