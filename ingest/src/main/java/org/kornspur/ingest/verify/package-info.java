/**
 * The command that verifies a running cluster, the data folder of a stopped machine, or an exported
 * proof.
 */
package org.kornspur.ingest.verify;
