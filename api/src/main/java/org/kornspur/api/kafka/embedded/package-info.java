/**
 * The one-machine run: a Kafka broker and a schema registry in the process of the api. A site with
 * a cluster of its own uses neither.
 */
package org.kornspur.api.kafka.embedded;
