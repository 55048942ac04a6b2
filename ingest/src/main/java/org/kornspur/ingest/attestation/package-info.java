/**
 * Signatures of the server: over acts of persons, and over who brought a fact through the
 * interface. And which of both may be taken in.
 */
package org.kornspur.ingest.attestation;
