/** The archive of an audit: lots on two pages each, what they share, proofs, log and journal. */
package org.kornspur.api.export.audit;
