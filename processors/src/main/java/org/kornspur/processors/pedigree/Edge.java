package org.kornspur.processors.pedigree;

import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.contract.Subject;

/**
 * Seed that passed from one place to another: from a lot into a crop, from a crop into a lot, from
 * lot to lot, or from a lot to a customer.
 *
 * @param parent where the seed came from
 * @param child where it went
 * @param massKg mass that reached the child from this parent, kilograms; where several parents went
 *     into several children, shared out in proportion to what each parent gave
 * @param by type of the fact that moved it
 * @param factId that fact
 * @param happenedAt when it was moved
 */
public record Edge(
    Subject parent, Subject child, double massKg, FactType by, String factId, Instant happenedAt) {

  /** Day on which it was moved, in UTC. */
  public LocalDate day() {
    return LocalDate.ofInstant(happenedAt, ZoneOffset.UTC);
  }
}
