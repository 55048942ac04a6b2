/**
 * The hash chain over the log of facts. Pure: bytes in, hashes and findings out.
 *
 * <p>Each partition of the log has a chain of its own. Every record in it, accepted, repeated or
 * refused, has one link:
 *
 * <pre>
 *  content(record) = SHA-256("kornspur/record/v1" 0 key value timestamp headers)
 *  link(0)         = SHA-256("kornspur/genesis/v1" 0 topic partition)
 *  link(n)         = SHA-256("kornspur/link/v1" 0 link(n-1) partition n offset content)
 * </pre>
 *
 * Numbers go in with the high byte first, byte strings after their length. The sequence number n is
 * the chain's own and has no gaps; the offset may have some, from transactions. The timestamp is
 * the one that the sender set, and headers are in, for both stay with the record for ever.
 *
 * <p>A checkpoint signs the newest link of a partition with Ed25519, and names the hash of the
 * checkpoint before it. What lies under a checkpoint cannot be altered, removed, inserted or
 * reordered without the signing key; what lies after the last one, can.
 */
package org.kornspur.ingest.chain;
