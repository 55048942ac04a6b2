package org.kornspur.processors.stream;

/** That one fact supersedes another, and why. */
record Revocation(String supersededFactId, String byFactId, String reason) {}
