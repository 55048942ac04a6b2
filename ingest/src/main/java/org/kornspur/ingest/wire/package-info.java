/** Records as bytes on a topic: the Confluent wire format, and the Kafka serde that writes it. */
package org.kornspur.ingest.wire;
