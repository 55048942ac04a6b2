package org.kornspur.api.web;

import java.time.LocalDate;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.kornspur.ingest.contract.FactType;

/**
 * One season of an invented grower, as papers tell it: a mixture is bought in, sown, inspected,
 * harvested, conditioned, tested, and sent to a customer. With it the seed is fit under the
 * rulebook EU.
 *
 * @param prefix of every id, so that the season can be entered again in another way
 * @param longitude of the western side of its field, degrees; seasons lie far apart
 */
record SmallSeason(String prefix, int longitude) {
  private static final String FACTS =
      """
      EnterpriseDeclared 2025-07-01 enterpriseId=~GROWER, name=Invented Grower, kind=MULTIPLIER
      EnterpriseDeclared 2025-07-01 enterpriseId=~LAB, name=Invented Laboratory, kind=LABORATORY, \
      accreditations[0].test=GERMINATION, accreditations[0].validFrom=2021-01-01, \
      accreditations[0].validTo=2027-12-31, accreditations[1].test=PURITY, \
      accreditations[1].validFrom=2021-01-01, accreditations[1].validTo=2027-12-31, \
      accreditations[2].test=OTHER_SEEDS, accreditations[2].validFrom=2021-01-01, \
      accreditations[2].validTo=2027-12-31, accreditations[3].test=MOISTURE, \
      accreditations[3].validFrom=2021-01-01, accreditations[3].validTo=2027-12-31, \
      accreditations[4].test=IDENTITY, accreditations[4].validFrom=2021-01-01, \
      accreditations[4].validTo=2027-12-31
      EnterpriseDeclared 2025-07-01 enterpriseId=~SAMPLER, name=Invented Sampler, \
      kind=INSPECTION_BODY, accreditations[0].test=SAMPLING, \
      accreditations[0].validFrom=2021-01-01, accreditations[0].validTo=2027-12-31
      HybridDeclared 2025-07-02 hybridId=~HYB, components[0].componentId=~SX, \
      components[0].kind=STERILE_SINGLE_CROSS, components[1].componentId=~RP, \
      components[1].kind=RESTORER_POLLINATOR, crosses[0].seedComponentId=~HYB, \
      crosses[0].femaleComponentId=~SX, crosses[0].pollenComponentId=~RP, \
      pollinatorSharePercent=5, shareBasis=VIABLE_KERNELS, tolerancePercentPoints=2
      LotDeclared 2025-08-20 lotId=~MIX, hybridId=~HYB, componentId=~HYB, category=BASIC, \
      enterpriseId=~GROWER, rulebookId=EU, cropYear=2025, massKg=1200
      Sampling 2025-09-01 sampleId=~S-MIX, lotId=~MIX, primarySamples=40, lotMassKg=1200, \
      submittedSampleG=1200, samplerAccreditation=~SAMPLER, laboratoryId=~LAB
      GerminationTest 2025-09-01 lotId=~MIX, sampleId=~S-MIX, replicates[0].seeds=100, \
      replicates[0].normalSeedlings=95, replicates[1].seeds=100, \
      replicates[1].normalSeedlings=94, replicates[2].seeds=100, \
      replicates[2].normalSeedlings=96, replicates[3].seeds=100, \
      replicates[3].normalSeedlings=95, laboratoryId=~LAB
      PurityTest 2025-09-01 lotId=~MIX, sampleId=~S-MIX, pureSeedG=119.4, inertMatterG=0.5, \
      otherSeedsG=0.1, laboratoryId=~LAB
      MoistureTest 2025-09-01 lotId=~MIX, sampleId=~S-MIX, moisturePercent=13.2, laboratoryId=~LAB
      OtherSeedDetermination 2025-09-01 lotId=~MIX, sampleId=~S-MIX, sampleG=500, \
      sampleNumber=1, otherCereals=0, otherPlants=2, raphanusAndAgrostemma=0, wildOats=0, \
      loliumTemulentum=0, ergotBodies=0, laboratoryId=~LAB
      BlendComposition 2025-09-05 lotId=~MIX, sampleId=~S-MIX, method=GROW_OUT, \
      kernelsExamined=1000, pollinatorKernels=50, laboratoryId=~LAB
      FieldCropDeclared 2025-09-20 cropId=~CROP, fieldId=~Field, enterpriseId=~GROWER, \
      hybridId=~HYB, role=F1_MIXTURE, seedComponentId=~HYB, pollenComponentId=~RP, \
      cropYear=2026, category=CERTIFIED, rulebookId=EU, outline=.000 49.000/.004 49.000/\
      .004 49.003/.000 49.003, floweringFrom=2026-05-28, floweringTo=2026-06-12, \
      yearsWithoutRye=4
      Sowing 2025-09-28 cropId=~CROP, sown[0].lotId=~MIX, sown[0].massKg=600, areaHa=9.7
      FieldInspection 2026-05-25 visit=1, @INSPECTED
      FieldInspection 2026-06-02 visit=2, @INSPECTED
      FieldInspection 2026-06-08 visit=3, @INSPECTED
      PostControlResult 2026-06-20 lotId=~MIX, method=PLOT, plotOrTestId=~PLOT, \
      plantsExamined=4000, identityConfirmed=true, offTypePlants=0, sheddingPlants=0
      Harvest 2026-08-03 cropId=~CROP, lotId=~RAW, massKg=21000
      Conditioning 2026-08-08 inputs[0].lotId=~RAW, inputs[0].massKg=21000, \
      outputs[0].lotId=~SEED, outputs[0].massKg=19500, screeningsKg=1500
      Sampling 2026-08-10 sampleId=~S-SEED, lotId=~SEED, primarySamples=40, lotMassKg=19500, \
      submittedSampleG=1200, samplerAccreditation=~SAMPLER, laboratoryId=~LAB
      GerminationTest 2026-08-18 lotId=~SEED, sampleId=~S-SEED, replicates[0].seeds=100, \
      replicates[0].normalSeedlings=97, replicates[1].seeds=100, \
      replicates[1].normalSeedlings=94, replicates[2].seeds=100, \
      replicates[2].normalSeedlings=96, replicates[3].seeds=100, \
      replicates[3].normalSeedlings=93, laboratoryId=~LAB
      PurityTest 2026-08-11 lotId=~SEED, sampleId=~S-SEED, pureSeedG=119.24, inertMatterG=0.71, \
      otherSeedsG=0.05, laboratoryId=~LAB
      MoistureTest 2026-08-11 lotId=~SEED, sampleId=~S-SEED, moisturePercent=12.8, \
      laboratoryId=~LAB
      OtherSeedDetermination 2026-08-12 lotId=~SEED, sampleId=~S-SEED, sampleG=500, \
      sampleNumber=1, otherCereals=1, otherPlants=3, raphanusAndAgrostemma=0, wildOats=0, \
      loliumTemulentum=0, ergotBodies=2, laboratoryId=~LAB
      Dispatch 2026-09-01 lotId=~SEED, customerId=~CUSTOMER, massKg=5000, \
      labelNumbers=INV-~000001
      """;

  private static final String INSPECTED =
      "cropId=~CROP, part=FEMALE, bbchStage=65, plantsCounted=9000, areaM2=450, offTypePlants=0, "
          + "sheddingPlants=0, otherCerealPlants=0, hardToSeparatePlants=0, wildOatPlants=0, "
          + "smutPlants=0";

  /**
   * One fact.
   *
   * @param values by the path of the contract, in the order of the form; numbers with a point
   */
  record Paper(FactType type, LocalDate day, String document, Map<String, String> values) {}

  List<Paper> papers() {
    List<String> lines = FACTS.lines().toList();
    return Stream.iterate(0, number -> number < lines.size(), number -> number + 1)
        .map(number -> paper(number + 1, lines.get(number)))
        .toList();
  }

  private Paper paper(int number, String line) {
    String[] parts = line.split(" ", 3);
    Map<String, String> values =
        Arrays.stream(parts[2].replace("@INSPECTED", INSPECTED).split(", "))
            .map(part -> part.split("=", 2))
            .collect(
                Collectors.toMap(
                    part -> part[0],
                    part -> value(part[0], part[1]),
                    (one, other) -> other,
                    LinkedHashMap::new));
    return new Paper(
        FactType.named(parts[0]).orElseThrow(),
        LocalDate.parse(parts[1]),
        "invented paper " + number,
        values);
  }

  private String value(String path, String written) {
    return path.equals("outline")
        ? Arrays.stream(written.split("/"))
            .map(corner -> longitude + corner)
            .collect(Collectors.joining("\n"))
        : written.replace("~", prefix + "-");
  }

  String crop() {
    return prefix + "-CROP";
  }

  List<String> lots() {
    return Stream.of("MIX", "RAW", "SEED").map(lot -> prefix + "-" + lot).toList();
  }
}
