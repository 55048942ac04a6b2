/**
 * Writes the invented enterprise of {@code demo-events/}: four harvest years of facts as files that
 * the ordinary loader takes.
 *
 * <p>Everything here is invented: enterprises, hybrids, fields, people, results. Orders of
 * magnitude (seed rates, yields, cleaning losses, thousand-kernel weights) are common practice, no
 * source. Each value is drawn from a random generator that is seeded by the name of the thing it
 * belongs to, so that the files come out the same on every machine and a change in one part leaves
 * the others as they were.
 */
package org.kornspur.ingest.demo;
