package org.kornspur.api.web.record;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.Optional;
import org.kornspur.processors.dossier.Entry;

/**
 * What a form is filled with at first, beside what was typed into it.
 *
 * @param corrects id of the fact that it corrects; empty of a new fact
 * @param mended the fact that it corrects or takes back, where it is on record
 * @param refused id of the refused input in whose place it is sent; else empty
 * @param fact what stands in it at first, as a fact; no node where it is empty
 */
record FormPrefill(
    Optional<String> corrects, Optional<Entry> mended, Optional<String> refused, JsonNode fact) {}
