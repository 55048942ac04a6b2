/** Whether this instance is alive and ready. */
package org.kornspur.api.rest.health;
