/** Finding crops and lots by any part of what is known of them. */
package org.kornspur.api.query.search;
