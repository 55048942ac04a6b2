/** Limits on connections, request heads and bodies, before anything is known of the caller. */
package org.kornspur.api.security.connection;
