/**
 * Field geometry on WGS84: outlines, distances between them, and finding those that are near.
 *
 * <p>An edge of an outline is the geodesic between its two corners: what a tape or a straight
 * furrow follows on the ground. A straight line in longitude and latitude, as GeoJSON defines it
 * (RFC 7946, section 3.1.1), departs from that by {@code length² · tan(latitude) / (8 · 6371 km)}
 * at most: 0.04 m for an edge of 1 km and 1.1 m for one of 5 km, both at 65° latitude. Who draws
 * long edges along a parallel sets corners in between.
 */
package org.kornspur.processors.ground;
