/**
 * The dossier of a lot or crop as a file that proves itself: every fact as it lies in the log, the
 * piece of the hash chain around it between two signed checkpoints (of other facts the hashes
 * alone), and a signed list of what the dossier held when it was exported. Verified without any
 * connection.
 */
package org.kornspur.ingest.proof;
