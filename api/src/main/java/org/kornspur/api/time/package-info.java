/** A clock of this process that never goes back. */
package org.kornspur.api.time;
