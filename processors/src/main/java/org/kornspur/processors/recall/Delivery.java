package org.kornspur.processors.recall;

import java.time.Instant;
import java.util.List;

/**
 * Seed of a lot that a customer got.
 *
 * @param customerId enterprise
 * @param lotId the lot
 * @param massKg kilograms
 * @param labelNumbers on the bags, as recorded
 * @param happenedAt when it left
 * @param factId the dispatch
 */
public record Delivery(
    String customerId,
    String lotId,
    double massKg,
    List<String> labelNumbers,
    Instant happenedAt,
    String factId) {}
