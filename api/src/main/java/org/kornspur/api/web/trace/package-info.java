/** What an auditor does: from a label number to the whole way back and forth, and recall drills. */
package org.kornspur.api.web.trace;
