/**
 * Finding a lot by what stands on a bag, and the recall drill: forward, backward and mass balance
 * in one answer, with what it does not know.
 */
package org.kornspur.api.query.recall;
