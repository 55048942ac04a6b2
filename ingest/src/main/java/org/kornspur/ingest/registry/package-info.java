/**
 * Schemas by number: the registry that producers and consumers ask, over the Confluent REST
 * interface, and the ledger that decides what may be registered.
 */
package org.kornspur.ingest.registry;
