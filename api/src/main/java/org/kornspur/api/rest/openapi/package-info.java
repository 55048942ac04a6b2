/** The document that describes the interface: what annotations say, made whole at build time. */
package org.kornspur.api.rest.openapi;
