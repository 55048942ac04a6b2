package org.kornspur.processors.plan;

import org.kornspur.processors.statistics.Interval;

/**
 * The chance that a lot which waits for evidence becomes fit.
 *
 * @param chance from 0 to 1
 * @param interval in which it lies with the confidence that it names
 */
public record FitChance(double chance, Interval interval) {}
