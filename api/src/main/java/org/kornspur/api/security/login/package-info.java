/** Finds out who asks: passwords, sessions, tokens of an issuer, and what they may reach. */
package org.kornspur.api.security.login;
