/**
 * Authenticates the caller: passwords, sessions, tokens of an issuer, and what they may reach.
 *
 * <p>The way of a request: {@link org.kornspur.api.security.login.RequestAuthentication}, called by
 * Quarkus, authenticates the caller; {@link org.kornspur.api.security.login.RequestThrottle},
 * {@link org.kornspur.api.security.login.SameOriginFilter} and {@link
 * org.kornspur.api.security.login.RouteAuthorization} refuse; the body is read; {@link
 * org.kornspur.api.security.login.AuthorizationFilter} decides at the resource.
 */
package org.kornspur.api.security.login;
