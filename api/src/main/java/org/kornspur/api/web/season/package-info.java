/**
 * Pages that hold things beside each other: seasons of a hybrid, a line or a multiplier;
 * multipliers of a season; the germination tests of a laboratory. Each drawing has a table that
 * says the same.
 */
package org.kornspur.api.web.season;
