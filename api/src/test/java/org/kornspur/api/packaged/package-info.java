/**
 * The packaged application in processes of its own: the layout of {@code docker-compose.yml} on
 * loopback, and the one-machine run that is killed and started again.
 */
package org.kornspur.api.packaged;
