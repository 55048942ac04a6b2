/**
 * Advice for a quality person over HTTP: forecasts, mixtures, counting plans, comparisons. None of
 * it is a gate.
 */
package org.kornspur.api.query.advice;
