/**
 * Years ahead: from tonnes of certified seed wanted, back through the crossing scheme, to what must
 * be sown in each season, against the seed that is in store. A plan is advice; nothing here makes a
 * lot fit or not fit, and no gate reads it. Pure.
 *
 * <p>Years are years of harvest. Seed harvested in a year is sown in its autumn for the harvest of
 * the next one, or sold. Kilograms are of cleaned seed, hectares of the whole crop with the strips
 * of its pollen parent.
 */
package org.kornspur.processors.plan;
