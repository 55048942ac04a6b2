/**
 * Who may see and do what. {@link org.kornspur.api.access.Permissions} is the one table; {@link
 * org.kornspur.api.access.RequiresPermission} ties every address to an action of it; {@link
 * org.kornspur.api.access.Visibility} draws the border within the data.
 */
package org.kornspur.api.access;
