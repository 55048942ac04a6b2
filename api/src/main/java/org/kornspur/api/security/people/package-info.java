/** The people file: who is known on this machine, and the journal of its changes. */
package org.kornspur.api.security.people;
