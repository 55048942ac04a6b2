package org.kornspur.api.query.view;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import java.time.Instant;
import java.util.List;
import org.apache.avro.specific.SpecificRecord;
import org.eclipse.microprofile.openapi.annotations.enums.SchemaType;
import org.eclipse.microprofile.openapi.annotations.media.Schema;
import org.kornspur.api.readmodel.ReceiptTimes;
import org.kornspur.api.security.visibility.Visibility;
import org.kornspur.api.text.ReaderWords;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.contract.SubjectsNamed;
import org.kornspur.ingest.json.AvroJson;
import org.kornspur.processors.dossier.Entry;
import org.kornspur.processors.dossier.Entry.Superseded;

@Schema(description = "One fact of a dossier")
public record FactView(
    @Schema(
            description =
                "False where another fact took its place, or where it waits for confirmation",
            examples = "true")
        boolean counts,
    @Schema(
            description =
                "Whether it is to take the place of another fact and nothing proves who sent it;"
                    + " it counts once quality sends it through the interface")
        boolean awaitsConfirmation,
    @Schema(nullable = true, description = "What took its place and why; null where it counts")
        SupersededView superseded,
    @Schema(
            description =
                "Corrections and withdrawals of it that take no effect, for nothing proves who sent"
                    + " them; quality confirms one by sending it through the interface")
        List<SupersededView> unconfirmed,
    @Schema(
            nullable = true,
            description =
                "When the log received it, by its own clock, whatever the sender claims in"
                    + " header.recordedAt; null where the log kept the sender's time, where it"
                    + " has not been read so far, or where the fact is shown cut")
        Instant receivedAt,
    @Schema(description = "Every crop, lot, hybrid and source that it names")
        List<SubjectLink> subjects,
    @Schema(
            type = SchemaType.OBJECT,
            description = "The fact in the shape that POST /facts takes; see /fact-types")
        JsonNode fact) {

  /** The fact that took its place, and why. */
  @Schema(description = "The fact that took its place, who recorded it, when and why")
  public record SupersededView(
      String byFactId,
      String reason,
      @Schema(
              nullable = true,
              description = "Who recorded that; null where it was noted by an earlier version")
          String recordedBy,
      @Schema(nullable = true, description = "When; null likewise") Instant recordedAt,
      @Schema(
              nullable = true,
              type = SchemaType.OBJECT,
              description =
                  "The fact with the corrected values, to be read beside this one; null for a"
                      + " withdrawal, which puts nothing in its place")
          JsonNode fact) {

    static SupersededView of(
        Superseded superseded, List<Entry> all, Visibility visibility, ReaderWords words) {
      return new SupersededView(
          superseded.byFactId(),
          superseded.reason(),
          superseded.recordedBy().orElse(null),
          superseded.recordedAt().orElse(null),
          all.stream()
              .filter(entry -> entry.header().getFactId().equals(superseded.byFactId()))
              .findFirst()
              .map(entry -> content(entry.fact(), visibility, words))
              .orElse(null));
    }
  }

  /**
   * A fact as it may be seen: whole, or cut where it reaches beyond the border.
   *
   * @param all the facts of the same subject, among which the one that corrects it is looked for
   */
  public static FactView of(
      Entry entry,
      List<Entry> all,
      ReceiptTimes receipts,
      Visibility visibility,
      ReaderWords words) {
    boolean isWhole = isWhole(entry.fact(), visibility);
    return new FactView(
        entry.counts(),
        entry.awaitsConfirmation(),
        entry.superseded().map(by -> SupersededView.of(by, all, visibility, words)).orElse(null),
        entry.unconfirmed().stream()
            .map(by -> SupersededView.of(by, all, visibility, words))
            .toList(),
        isWhole ? receipts.receivedAt(entry.header().getFactId()).orElse(null) : null,
        SubjectsNamed.of(entry.fact()).stream()
            .filter(subject -> isWhole || visibility.sees(subject))
            .map(SubjectLink::of)
            .toList(),
        content(entry.fact(), visibility, words));
  }

  private static boolean isWhole(SpecificRecord fact, Visibility visibility) {
    return visibility.isWhole() || visibility.sees(fact);
  }

  private static JsonNode content(SpecificRecord fact, Visibility visibility, ReaderWords words) {
    return isWhole(fact, visibility) ? AvroJson.write(fact) : cut(fact, words);
  }

  /** Type and time alone, for the rest tells of others' seed. */
  private static JsonNode cut(SpecificRecord fact, ReaderWords words) {
    return JsonNodeFactory.instance
        .objectNode()
        .put("type", FactType.of(fact).contractName())
        .put("happenedAt", FactType.headerOf(fact).getHappenedAt().toString())
        .put("cut", words.plain(new Notice.Cut()));
  }
}
