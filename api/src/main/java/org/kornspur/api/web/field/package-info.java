/**
 * The page of a seed crop: its field and the ground around it drawn to scale, flowering, counts.
 * Every drawing is SVG made here, with a table beside it that says the same.
 */
package org.kornspur.api.web.field;
