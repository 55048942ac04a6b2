/**
 * The running processors behind the API: starts the embedded broker and registry where no cluster
 * is configured, creates the topics, runs the topology, and asks whichever instance holds a key.
 */
package org.kornspur.api.kafka;
