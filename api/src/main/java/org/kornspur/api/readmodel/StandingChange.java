package org.kornspur.api.readmodel;

import java.util.Optional;

/**
 * A standing that was written again.
 *
 * @param before empty where it is new, or where what went before is no longer kept
 */
public record StandingChange(Optional<StandingIndexRow> before, StandingIndexRow after) {}
