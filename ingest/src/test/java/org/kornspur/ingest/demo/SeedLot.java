package org.kornspur.ingest.demo;

import java.time.LocalDate;
import org.kornspur.contract.Category;

/**
 * A lot of the demo, with what must be known of it to test and use it.
 *
 * @param component component id, or the hybrid id for mixtures and F1 seed
 * @param massKg mass that came into it, kilograms
 * @param on day on which it came to be
 */
record SeedLot(
    String lotId,
    DemoHybrid hybrid,
    String component,
    Category category,
    double massKg,
    LocalDate on) {}
