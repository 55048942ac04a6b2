/** What a label must say, and the code on it that opens the lot's page. Pure. */
package org.kornspur.api.export.label;
