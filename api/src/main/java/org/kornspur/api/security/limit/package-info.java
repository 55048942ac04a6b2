/**
 * Limits that this instance keeps in memory, for all who need one: how often a thing may happen,
 * and who was first to take a name. All are bounded, and a restart forgets them.
 */
package org.kornspur.api.security.limit;
