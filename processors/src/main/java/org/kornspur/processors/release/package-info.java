/**
 * Release by persons: what exactly is signed, and what a lot's release has come to. Everything is a
 * function of the set of facts, acts included. Pure.
 */
package org.kornspur.processors.release;
