package org.kornspur.processors.verdict;

import java.util.Optional;
import org.kornspur.ingest.statement.Coded;

/**
 * What a rulebook says beside its limits. It stands beside a standing, and no verdict rests on it.
 *
 * @param gate gate that it speaks of; empty where it speaks of all
 * @param finding what the book says, and where
 */
public record RuleNote(Optional<Gate> gate, Coded finding) {}
