/** The command line: one word chooses the command, a folder alone is loaded. */
package org.kornspur.ingest.cli;
