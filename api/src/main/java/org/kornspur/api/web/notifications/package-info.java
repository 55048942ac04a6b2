/** The page where a person chooses what to hear of. */
package org.kornspur.api.web.notifications;
