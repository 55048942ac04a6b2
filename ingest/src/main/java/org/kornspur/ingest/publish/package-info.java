/** Sends facts and refused inputs to Kafka. */
package org.kornspur.ingest.publish;
