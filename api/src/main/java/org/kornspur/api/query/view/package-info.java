/**
 * The shapes of the answers, as JSON. Units stand in the names of the fields ({@code massKg}), or
 * beside the value where it can have several.
 */
package org.kornspur.api.query.view;
