package org.kornspur.api.view;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import java.util.List;
import org.apache.avro.specific.SpecificRecord;
import org.eclipse.microprofile.openapi.annotations.enums.SchemaType;
import org.eclipse.microprofile.openapi.annotations.media.Schema;
import org.kornspur.api.access.Sight;
import org.kornspur.ingest.contract.FactType;
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

  /** A fact as it may be seen: whole, or cut where it reaches beyond the border. */
  public static FactView of(Entry entry, Sight sight) {
    boolean isWhole = sight.isWhole() || sight.sees(entry.fact());
    return new FactView(
        entry.counts(),
        entry.superseded().map(SupersededView::of).orElse(null),
        SubjectsNamed.of(entry.fact()).stream()
            .filter(subject -> isWhole || sight.names(subject))
            .map(SubjectLink::of)
            .toList(),
        isWhole ? AvroJson.write(entry.fact()) : cut(entry.fact()));
  }

  /** Type and time alone, for the rest tells of others' seed. */
  private static JsonNode cut(SpecificRecord fact) {
    return JsonNodeFactory.instance
        .objectNode()
        .put("type", FactType.of(fact).contractName())
        .put("happenedAt", FactType.headerOf(fact).getHappenedAt().toString())
        .put("cut", "The rest of this fact tells of seed of others.");
  }
}
