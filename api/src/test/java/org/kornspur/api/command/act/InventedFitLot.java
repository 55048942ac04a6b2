package org.kornspur.api.command.act;

import java.time.Duration;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.Arrays;
import java.util.List;
import java.util.stream.Collectors;
import org.kornspur.contract.TestKind;

/** Facts of an invented lot of pre-basic seed to which no evidence is missing. */
public final class InventedFitLot {

  /** A month ago: an older test of germination would no longer do for a release. */
  private static final Instant TESTED =
      Instant.now().truncatedTo(ChronoUnit.DAYS).minus(Duration.ofDays(30));

  private InventedFitLot() {}

  /**
   * The facts, as JSON; the lot is held by the invented enterprise {@code ENT-1}. It is fit once
   * {@link #laboratory()} is on record too.
   */
  public static List<String> facts(String lot) {
    return List.of(
        fact(
            "LotDeclared",
            lot + "-declared",
            "2022-08-21T08:16:00Z",
            null,
            """
            "lotId": "%s", "hybridId": "HYB-T", "componentId": "SX", "category": "PRE_BASIC", \
            "enterpriseId": "ENT-1", "rulebookId": "EU", "cropYear": 2022, "massKg": 450\
            """
                .formatted(lot)),
        fact(
            "Sampling",
            lot + "-sampling",
            "2022-08-22T11:43:00Z",
            null,
            """
            "sampleId": "S-%1$s", "lotId": "%1$s", "primarySamples": 5, "lotMassKg": 450, \
            "submittedSampleG": 1189, "samplerAccreditation": "LAB-1\"\
            """
                .formatted(lot)),
        moisture(lot + "-moisture", lot, "2022-08-22T16:13:00Z", null, 12.7),
        fact(
            "GerminationTest",
            lot + "-germination",
            TESTED.toString(),
            null,
            """
            "lotId": "%1$s", "sampleId": "S-%1$s", "laboratoryId": "LAB-1", "replicates": [\
            {"seeds": 100, "normalSeedlings": 96}, {"seeds": 100, "normalSeedlings": 97}, \
            {"seeds": 100, "normalSeedlings": 97}, {"seeds": 100, "normalSeedlings": 95}]\
            """
                .formatted(lot)),
        fact(
            "PurityTest",
            lot + "-purity",
            "2022-08-23T16:45:00Z",
            null,
            """
            "lotId": "%1$s", "sampleId": "S-%1$s", "pureSeedG": 119.15, "inertMatterG": 0.78, \
            "otherSeedsG": 0.07, "laboratoryId": "LAB-1\"\
            """
                .formatted(lot)),
        fact(
            "OtherSeedDetermination",
            lot + "-other-seeds",
            "2022-08-24T13:32:00Z",
            null,
            """
            "lotId": "%1$s", "sampleId": "S-%1$s", "sampleG": 500, "sampleNumber": 1, \
            "otherCereals": 1, "otherPlants": 1, "raphanusAndAgrostemma": 0, "wildOats": 0, \
            "loliumTemulentum": 0, "ergotBodies": 0, "laboratoryId": "LAB-1\"\
            """
                .formatted(lot)));
  }

  /** The declaration of the laboratory that made the tests; the same for every lot. */
  public static String laboratory() {
    return fact(
        "EnterpriseDeclared",
        "LAB-1-declared",
        "2022-08-01T08:00:00Z",
        null,
        """
        "enterpriseId": "LAB-1", "name": "invented laboratory", "kind": "LABORATORY", \
        "accreditations": [%s]\
        """
            .formatted(
                Arrays.stream(TestKind.values())
                    .map(InventedFitLot::accreditation)
                    .collect(Collectors.joining(", "))));
  }

  private static String accreditation(TestKind test) {
    return """
    {"test": "%s", "validFrom": "2020-01-01", "validTo": "2099-12-31"}\
    """
        .formatted(test);
  }

  /** A result of post-control that makes the lot not fit. */
  public static String failedPostControl(String id, String lot) {
    return fact(
        "PostControlResult",
        id,
        "2023-06-20T10:00:00Z",
        null,
        """
        "lotId": "%s", "method": "PLOT", "plotOrTestId": "plot-1", "plantsExamined": 1000, \
        "identityConfirmed": false, "offTypePlants": 0\
        """
            .formatted(lot));
  }

  static String moisture(
      String id, String lot, String recordedAt, String corrects, double percent) {
    return fact(
        "MoistureTest",
        id,
        recordedAt,
        corrects,
        """
        "lotId": "%1$s", "sampleId": "S-%1$s", "moisturePercent": %2$s, "laboratoryId": "LAB-1\"\
        """
            .formatted(lot, percent));
  }

  static String fact(String type, String id, String recordedAt, String corrects, String fields) {
    String correction =
        corrects == null
            ? "null"
            : "{\"supersedes\": \"%s\", \"reason\": \"typing error\"}".formatted(corrects);
    return """
    {"type": "%s", "header": {"factId": "%s", "recordedBy": "p-01", "happenedAt": "%s", \
    "recordedAt": "%s", "sourceDocument": "invented", "correction": %s}, %s}\
    """
        .formatted(type, id, recordedAt, recordedAt, correction, fields);
  }
}
