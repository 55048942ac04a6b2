/**
 * The border within the data: what of it a caller may see, and what a caller may bring. Model:
 * Regulation (EC) No 178/2002, Article 18, one step back and one step forward.
 */
package org.kornspur.api.visibility;
