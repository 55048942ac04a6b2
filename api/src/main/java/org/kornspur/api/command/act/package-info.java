/**
 * Acts of persons: release, suspend, condemn, downgrade. Here they are signed; what has come of
 * them is judged in the stream, from the facts.
 */
package org.kornspur.api.command.act;
