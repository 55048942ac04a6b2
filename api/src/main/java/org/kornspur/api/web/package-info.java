/**
 * Pages for people: rendered here from the same services as the answers of the interface, with
 * texts in message bundles, numbers and dates by locale, and nothing loaded from elsewhere.
 */
package org.kornspur.api.web;
