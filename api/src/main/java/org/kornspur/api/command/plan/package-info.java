/** Where persons save and approve plans of the years ahead. */
package org.kornspur.api.command.plan;
