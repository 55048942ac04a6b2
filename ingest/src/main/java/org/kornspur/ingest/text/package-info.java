/**
 * Words for what the program says as data: ICU message patterns, one file a language, found by the
 * code of a statement.
 */
package org.kornspur.ingest.text;
