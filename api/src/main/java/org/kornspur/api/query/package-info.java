/** What a caller may read, filtered once, and the answers made of it. */
package org.kornspur.api.query;
