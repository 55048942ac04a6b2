/** Pages on the site itself: what a new one needs first, and by what it judges and signs. */
package org.kornspur.api.web.site;
