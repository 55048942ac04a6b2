package org.kornspur.api.web.fieldbook;

import java.util.List;

/**
 * When a count may stop, as data for a phone without network, and in words.
 *
 * @param quantity what is limited, by the name of the rulebook's quantity
 * @param part of the crop that is counted, by name
 * @param title what is counted, in words
 * @param pieceM2 square metres of one unit; 0 where a unit is a plant
 * @param visit visit that {@code units} were counted on; 0 where the count runs over all visits
 * @param units units counted before
 * @param bad bad units among them
 * @param least units below which this visit by itself is no sample: before them nobody is told to
 *     stop, whatever earlier visits found
 * @param limit the limit in the words of its text
 * @param source where it stands
 * @param fixed the count of fixed size that keeps the same risks, in words; empty where none does
 * @param rows units, acceptance number, reject number, each holding until the next row; empty where
 *     a sequential count would take too long
 */
public record TallyPlan(
    String quantity,
    String part,
    String title,
    double pieceM2,
    int visit,
    int units,
    int bad,
    int least,
    String limit,
    String source,
    String fixed,
    List<int[]> rows) {}
