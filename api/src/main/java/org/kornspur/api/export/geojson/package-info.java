/**
 * Field crops, their isolation zones and sources of pollen as features of RFC 7946. Pure mapping.
 */
package org.kornspur.api.export.geojson;
