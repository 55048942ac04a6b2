package org.kornspur.api.web.fieldbook;

/**
 * What stands around a page of the field book, with what its scripts need.
 *
 * @param person id of who is signed in; empty where nobody is
 * @param texts texts that the scripts show, as JSON
 */
public record FieldBookFrame(String person, String texts) {}
