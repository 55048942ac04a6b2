/** What persons do about causes for which seed is not fit. */
package org.kornspur.api.command.cause;
