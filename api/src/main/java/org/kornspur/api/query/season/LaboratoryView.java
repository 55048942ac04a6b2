package org.kornspur.api.query.season;

import org.eclipse.microprofile.openapi.annotations.media.Schema;

@Schema(description = "A laboratory that has made germination tests")
public record LaboratoryView(
    @Schema(examples = "ENT-LAB-ONE") String laboratoryId,
    @Schema(nullable = true, description = "Its name; null where none is declared") String name,
    @Schema(description = "Germination tests that count") int tests,
    @Schema(description = "Address of its control chart") String href) {}
