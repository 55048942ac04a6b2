/**
 * Plans of the years ahead: what was asked, what follows from it by the standings of the moment,
 * and how that differs from what was approved. A plan changes no standing.
 */
package org.kornspur.api.query.plan;
