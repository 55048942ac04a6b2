/**
 * The season on a map: fields, sources of pollen, isolation zones and conflicts, drawn as SVG with
 * tables that say the same; distances, and where a new source lies.
 */
package org.kornspur.api.web.map;
