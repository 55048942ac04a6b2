/** What this instance reads from topics to answer with: every standing, every refused input. */
package org.kornspur.api.readmodel;
