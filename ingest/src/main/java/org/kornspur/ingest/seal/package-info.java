/** Keys that sign, keys that are trusted, and hashes that cannot be mistaken for one another. */
package org.kornspur.ingest.seal;
