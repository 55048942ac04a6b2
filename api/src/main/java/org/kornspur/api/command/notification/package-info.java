/** What persons want to hear of, and the messages that tell them of it. */
package org.kornspur.api.command.notification;
