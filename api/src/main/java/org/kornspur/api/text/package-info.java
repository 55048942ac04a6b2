/**
 * Sentences: what the processors say as data, in the language of one reader. The patterns stand in
 * {@code text/statements_*.properties}, in the message format of ICU, one key for each kind of
 * statement.
 */
package org.kornspur.api.text;
