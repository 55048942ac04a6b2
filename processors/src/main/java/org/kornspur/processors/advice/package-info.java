/**
 * Advice for a quality person: forecasts, mixtures, counting plans and comparisons. No gate reads
 * it: nothing here makes a lot fit or not fit. Pure.
 */
package org.kornspur.processors.advice;
