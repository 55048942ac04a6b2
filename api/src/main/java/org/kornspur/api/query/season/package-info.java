/**
 * What seasons came to, side by side: of a hybrid, a line, a multiplier or all, as far as the
 * caller sees them; multipliers of one season; the germination tests of a laboratory on a control
 * chart.
 */
package org.kornspur.api.query.season;
