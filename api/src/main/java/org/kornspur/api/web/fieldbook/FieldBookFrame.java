package org.kornspur.api.web.fieldbook;

/**
 * What the scripts of the field book need to know of a page.
 *
 * @param person id of who is signed in; empty where nobody is
 * @param texts texts that the scripts show, as JSON
 */
public record FieldBookFrame(String person, String texts) {}
