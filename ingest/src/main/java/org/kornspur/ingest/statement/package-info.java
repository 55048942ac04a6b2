/**
 * What the program says, as data: a code and typed arguments. Sentences are made of it where
 * somebody reads it, in that reader's language.
 */
package org.kornspur.ingest.statement;
