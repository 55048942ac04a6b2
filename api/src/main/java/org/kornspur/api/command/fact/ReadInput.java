package org.kornspur.api.command.fact;

import org.kornspur.ingest.json.ReadResult;

/**
 * An input that has been read and checked, from whatever form it came in.
 *
 * @param utf8 as it came, for the quarantine
 * @param place where it stood, for the quarantine
 * @param senderId person who sent it
 */
public record ReadInput(ReadResult result, byte[] utf8, String place, String senderId) {}
