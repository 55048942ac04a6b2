package org.kornspur.api.view;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.List;
import org.eclipse.microprofile.openapi.annotations.enums.SchemaType;
import org.eclipse.microprofile.openapi.annotations.media.Schema;
import org.kornspur.ingest.contract.SubjectsNamed;
import org.kornspur.ingest.json.AvroJson;
import org.kornspur.processors.dossier.Entry;
import org.kornspur.processors.dossier.Entry.Superseded;

/** One fact of a dossier. */
@Schema(description = "One fact of a dossier")
public record FactView(
    @Schema(description = "False where another fact took its place", examples = "true")
        boolean counts,
    @Schema(description = "What took its place and why; null where it counts")
        SupersededView superseded,
    @Schema(description = "Every crop, lot, hybrid and source that it names")
        List<SubjectLink> subjects,
    @Schema(
            type = SchemaType.OBJECT,
            description = "The fact in the shape that POST /facts takes; see /fact-types")
        JsonNode fact) {

  /** The fact that took its place, and why. */
  @Schema(description = "The fact that took its place, and why")
  public record SupersededView(String byFactId, String reason) {
    static SupersededView of(Superseded superseded) {
      return new SupersededView(superseded.byFactId(), superseded.reason());
    }
  }

  public static FactView of(Entry entry) {
    return new FactView(
        entry.counts(),
        entry.superseded().map(SupersededView::of).orElse(null),
        SubjectsNamed.of(entry.fact()).stream().map(SubjectLink::of).toList(),
        AvroJson.write(entry.fact()));
  }
}
