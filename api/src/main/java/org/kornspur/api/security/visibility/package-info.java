/**
 * What part of the data a caller may see, and what facts a caller may bring. Model: Regulation (EC)
 * No 178/2002, Article 18, one step back and one step forward.
 */
package org.kornspur.api.security.visibility;
