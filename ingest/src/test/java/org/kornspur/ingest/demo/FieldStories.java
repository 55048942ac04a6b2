package org.kornspur.ingest.demo;

import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import org.kornspur.contract.FactHeader;
import org.kornspur.contract.GeoPoint;
import org.kornspur.contract.PollenSourceKind;
import org.kornspur.contract.PollenSourceSeen;
import org.kornspur.contract.Withdrawal;

/** Trouble in the field: foreign pollen, a female that sheds. */
final class FieldStories {
  private static final int NEIGHBOUR_M = 650;
  private static final int VOLUNTEERS_M = 320;

  private final Book book;
  private final Holding holding;

  FieldStories(Book stories, Holding holding) {
    this.book = stories;
    this.holding = holding;
  }

  List<Story> tell() {
    return List.of(
        neighbourReportedLate(), femaleSheds(), sourceWithdrawn(), volunteersDestroyed());
  }

  private Story neighbourReportedLate() {
    String folder = "01-neighbour-reported-late";
    Crop crop = f1("C25-S01", 1, 2025);
    SeedLot lot = produceAndSell(folder, crop);
    book.in(folder)
        .addByPhone(
            neighbour(
                "NB-S01",
                crop,
                Heads.head(
                    "source-NB-S01",
                    "phone-17",
                    Instant.parse("2025-06-02T15:20:00Z"),
                    Instant.parse("2025-09-24T18:05:00Z"),
                    "telephone note NB-S01")));
    return new Story(
        folder,
        "A neighbour's rye inside the isolation distance, reported weeks after the harvest",
        "Rye flowering some 300 m from crop C25-S01 was seen on 2 June 2025 and recorded only on"
            + " 24 September, when its seed had been conditioned and sent out.",
        Story.looks()
            .unjudged("source:NB-S01")
            .notFit(
                "crop:C25-S01", "lot:R25-S01", "lot:" + lot.lotId(), "lot:" + lot.lotId() + "-P1")
            .list(),
        "Crop not fit on isolation (under 500 m), and so the harvest, the conditioned lot and each"
            + " part of it, with the customers who have it.");
  }

  private Story femaleSheds() {
    String folder = "02-female-sheds";
    DemoHybrid hybrid = DemoHybrid.numbered(2);
    Crop crop = Crop.singleCross("C25-S02", holding.fields.small(2025), hybrid, 2025);
    Book pages = book.in(folder);
    holding.grow(pages, crop, 2023, 0.042);
    SeedLot raw = holding.growing.harvest(pages, crop).get(0);
    Laboratory.all(pages, holding.plant.clean(pages, raw));
    return new Story(
        folder,
        "A female with too many shedders",
        "In crop C25-S02, single cross SC-02, four to five of a hundred female plants shed pollen at both"
            + " visits in flower and at the sterility check.",
        Story.looks().notFit("crop:C25-S02", "lot:R25-S02", "lot:L25-S02").list(),
        "Crop not fit: sterility under 98 %; the lots from it inherit that.");
  }

  private Story sourceWithdrawn() {
    String folder = "12-source-withdrawn";
    Crop crop = f1("C26-S12", 1, 2026);
    SeedLot lot = produceAndSell(folder, crop);
    book.in(folder)
        .addByPhone(
            neighbour(
                "NB-S12",
                crop,
                Heads.head(
                    "source-NB-S12",
                    "phone-12",
                    LocalDate.of(2026, 5, 20),
                    "telephone note NB-S12")));
    book.in(folder)
        .add(
            new Withdrawal(
                Heads.head(
                    "withdrawal-NB-S12",
                    "inspector-02",
                    LocalDate.of(2026, 5, 26),
                    "inspection sheet NB-S12"),
                "source-NB-S12",
                "The inspector went there: the field is winter wheat, no rye stands in it"));
    return new Story(
        folder,
        "A fact withdrawn",
        "A rye field near crop C26-S12 was reported on 20 May 2026; an inspector found wheat, and"
            + " the report was withdrawn.",
        Story.looks().unjudged("source:NB-S12").fit("crop:C26-S12", "lot:" + lot.lotId()).list(),
        "Crop and lot fit; the report stays on record, struck out, with who withdrew it and why.");
  }

  private Story volunteersDestroyed() {
    String folder = "13-volunteers-destroyed-in-time";
    Crop crop = f1("C26-S13", 6, 2026);
    SeedLot lot = produceAndSell(folder, crop);
    FactHeader head =
        Heads.head("source-NB-S13", "phone-12", LocalDate.of(2026, 5, 4), "telephone note NB-S13");
    book.in(folder)
        .addByPhone(
            PollenSources.seen(
                head,
                "NB-S13",
                PollenSourceKind.VOLUNTEER_RYE,
                crop,
                DemoField.offset(crop.field().centre(), VOLUNTEERS_M, -40),
                LocalDate.of(2026, 5, 11)));
    return new Story(
        folder,
        "Volunteers destroyed before flowering",
        "Volunteer rye stood some 200 m from crop C26-S13 and was mulched on 11 May 2026, before"
            + " the crop flowered.",
        Story.looks().unjudged("source:NB-S13").fit("crop:C26-S13", "lot:" + lot.lotId()).list(),
        "Crop and lot fit: near enough, but they did not flower together.");
  }

  private Crop f1(String cropId, int hybrid, int year) {
    return Crop.f1(cropId, holding.fields.small(year), DemoHybrid.numbered(hybrid), year);
  }

  private SeedLot produceAndSell(String folder, Crop crop) {
    SeedLot lot = holding.produceF1(book.in(folder), crop).get(0);
    holding.sales.splitAndDispatch(book.in(folder), lot);
    return lot;
  }

  /** A field of rye whose middle lies some hundred metres east of the crop's middle. */
  private static PollenSourceSeen neighbour(String sourceId, Crop crop, FactHeader head) {
    GeoPoint centre = DemoField.offset(crop.field().centre(), NEIGHBOUR_M, 60);
    return PollenSources.seen(head, sourceId, PollenSourceKind.RYE_CROP, crop, centre, null);
  }
}
