package org.kornspur.ingest.intake;

import java.time.Duration;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.List;
import org.kornspur.contract.Accreditation;
import org.kornspur.contract.EnterpriseDeclared;
import org.kornspur.contract.FieldCropDeclared;
import org.kornspur.contract.LotDeclared;
import org.kornspur.contract.PollenSourceSeen;
import org.kornspur.ingest.problem.TimeProblem;
import org.kornspur.ingest.statement.Value.Amount;

/** What declarations of enterprises, crops, lots and pollen sources must be in themselves. */
final class DeclarationChecks {
  private DeclarationChecks() {}

  /** An accreditation begins before it ends. */
  static void check(EnterpriseDeclared enterprise, Problems into) {
    List<Accreditation> accreditations = enterprise.getAccreditations();
    for (int index = 0; index < accreditations.size(); index++) {
      LocalDate from = accreditations.get(index).getValidFrom();
      LocalDate to = accreditations.get(index).getValidTo();
      if (from.isAfter(to)) {
        into.add(
            "accreditations[" + index + "].validFrom",
            from,
            new TimeProblem.FirstAfterLast("validTo", to));
      }
    }
  }

  /** A crop stands on one piece of land and flowers before its harvest. */
  static void check(FieldCropDeclared crop, Problems into) {
    OutlineCheck.check("outline", crop.getOutline(), into);
    LocalDate from = crop.getFloweringFrom();
    LocalDate to = crop.getFloweringTo();
    if (from != null && to != null && from.isAfter(to)) {
      into.add("floweringFrom", from, new TimeProblem.FirstAfterLast("floweringTo", to));
    }
    flowersForHarvest("floweringFrom", from, crop.getCropYear(), into);
    flowersForHarvest("floweringTo", to, crop.getCropYear(), into);
  }

  /** South of the equator a crop that flowers in November may be harvested in January. */
  private static void flowersForHarvest(String field, LocalDate day, int cropYear, Problems into) {
    if (day != null && (day.getYear() > cropYear || day.getYear() < cropYear - 1)) {
      into.add(field, day, new TimeProblem.NotInCropYear(new Amount(cropYear, "year")));
    }
  }

  /** A lot is declared after its harvest. */
  static void check(LotDeclared lot, Problems into) {
    int latestYear =
        lot.getHeader().getRecordedAt().plus(Duration.ofDays(1)).atZone(ZoneOffset.UTC).getYear();
    if (lot.getCropYear() > latestYear) {
      into.add(
          "cropYear",
          lot.getCropYear(),
          new TimeProblem.HarvestedAfterRecorded(new Amount(latestYear, "year")));
    }
  }

  /** A source of pollen stands somewhere, and is seen before it ends. */
  static void check(PollenSourceSeen source, Problems into) {
    OutlineCheck.check("outline", source.getOutline(), into);
    if (source.getEndedOn() != null && source.getFirstSeenOn().isAfter(source.getEndedOn())) {
      into.add(
          "endedOn",
          source.getEndedOn(),
          new TimeProblem.LastBeforeFirst("firstSeenOn", source.getFirstSeenOn()));
    }
    if (source.getFirstSeenOn().getYear() > source.getCropYear()) {
      into.add(
          "cropYear",
          source.getCropYear(),
          new TimeProblem.SeenAfterCropYear(source.getFirstSeenOn()));
    }
  }
}
