/**
 * What all addresses share: parameters of requests, and the turns of answers that need much memory.
 */
package org.kornspur.api.http;
