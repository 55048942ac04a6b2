/**
 * Roles, permissions and the caller of a request. {@link org.kornspur.api.security.Permission} is
 * the one table; {@link org.kornspur.api.security.RequiresPermission} ties every address to a
 * permission of it. Which part of the data a caller sees, {@code visibility} says.
 */
package org.kornspur.api.security;
