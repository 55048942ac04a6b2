/**
 * The rulebooks: limits as data, each with its source, the days on which it was in force, and
 * whether it was read in the text. The files are {@code rulebooks/*.yaml}; {@code
 * rulebook.schema.json} beside them gives their shape.
 */
package org.kornspur.processors.standards;
