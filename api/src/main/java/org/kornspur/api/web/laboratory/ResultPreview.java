package org.kornspur.api.web.laboratory;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.api.text.LocalFormat;
import org.kornspur.api.text.PageTexts;
import org.kornspur.api.text.ReaderWords;
import org.kornspur.api.web.form.PreviewLine;
import org.kornspur.api.web.form.PreviewLine.Weight;
import org.kornspur.contract.GerminationTest;
import org.kornspur.contract.MoistureTest;
import org.kornspur.contract.OtherSeedDetermination;
import org.kornspur.contract.PurityTest;
import org.kornspur.processors.finding.Reference;
import org.kornspur.processors.statistics.Agreement;
import org.kornspur.processors.statistics.GerminationMean;
import org.kornspur.processors.statistics.Replicate;
import org.kornspur.processors.statistics.ReplicateTolerance;
import org.kornspur.processors.statistics.Rounding;
import org.kornspur.processors.statistics.TestCompatibility;

/**
 * What a result comes to, by the same statistics as the gates. No limit of a rulebook stands in it:
 * who tests a sample need not know what it must reach.
 */
public record ResultPreview(PageTexts texts, ReaderWords words) {

  /**
   * What follows from a test.
   *
   * @param earlier germination tests of the lot by the same laboratory that count, the first first
   */
  List<PreviewLine> of(SpecificRecord test, List<GerminationTest> earlier) {
    if (test instanceof GerminationTest germination) {
      return germination(germination, earlier);
    }
    if (test instanceof PurityTest purity) {
      return purity(purity);
    }
    if (test instanceof OtherSeedDetermination counted) {
      return otherSeeds(counted);
    }
    if (test instanceof MoistureTest moisture) {
      return List.of(plain("moisturePercent", percent(moisture.getMoisturePercent())));
    }
    return List.of();
  }

  /** Whether a result says that there is ergot. */
  static boolean foundErgot(SpecificRecord test) {
    return test instanceof OtherSeedDetermination counted
        && counted.getErgotBodies() != null
        && counted.getErgotBodies() > 0;
  }

  private List<PreviewLine> germination(GerminationTest test, List<GerminationTest> earlier) {
    List<Replicate> replicates = replicates(test);
    List<PreviewLine> lines = new ArrayList<>();
    lines.add(
        plain(
            "germination",
            texts.of(
                "germinationIs",
                percent(GerminationMean.wholePercent(replicates)),
                form().count(replicates.stream().mapToInt(Replicate::normalSeedlings).sum()),
                form().count(seeds(replicates)))));
    lines.add(
        agreement(texts.of("range"), ReplicateTolerance.judge(replicates), "within", "exceeded"));
    repeated(test, earlier).ifPresent(before -> lines.add(beside(before, replicates)));
    return List.copyOf(lines);
  }

  /** The test that it says it repeats, else the one before of the same sample. */
  private static Optional<GerminationTest> repeated(
      GerminationTest test, List<GerminationTest> earlier) {
    return earlier.stream()
        .filter(before -> before.getHeader().getFactId().equals(test.getRetestOf()))
        .findFirst()
        .or(
            () ->
                earlier.stream()
                    .filter(before -> before.getSampleId().equals(test.getSampleId()))
                    .reduce((first, second) -> second));
  }

  private PreviewLine beside(GerminationTest before, List<Replicate> now) {
    List<Replicate> then = replicates(before);
    int first = GerminationMean.wholePercent(then);
    return agreement(
        texts.of("beside", form().day(before.getHeader().getHappenedAt()), percent(first)),
        TestCompatibility.compare(
            first, seeds(then), GerminationMean.wholePercent(now), seeds(now)),
        "agrees",
        "disagrees");
  }

  /**
   * Whether two values agree.
   *
   * @param agrees key of the text where they do
   * @param disagrees key of the text where they do not
   */
  private PreviewLine agreement(String label, Agreement found, String agrees, String disagrees) {
    if (found instanceof Agreement.Tabulated row) {
      boolean isGood = row instanceof Agreement.Agrees;
      return new PreviewLine(
          label,
          texts.of(
              isGood ? agrees : disagrees,
              form().number(row.difference()),
              form().number(row.tolerated())),
          isGood ? Weight.GOOD : Weight.OWED,
          words.plain(Reference.of(row.source())));
    }
    String reason = words.plain(((Agreement.NotTabulated) found).reason());
    return new PreviewLine(label, reason, Weight.OWED, "");
  }

  private List<PreviewLine> purity(PurityTest test) {
    double allG = test.getPureSeedG() + test.getInertMatterG() + test.getOtherSeedsG();
    return List.of(
        plain("sampleLookedThrough", grams(allG)),
        plain("pureSeed", share(test.getPureSeedG(), allG)),
        plain("inertMatter", share(test.getInertMatterG(), allG)),
        plain("otherSeedsByMass", share(test.getOtherSeedsG(), allG)));
  }

  private String share(double partG, double allG) {
    double percent = 100 * partG / allG;
    return Rounding.isTrace(percent)
        ? texts.of("trace")
        : texts.of("shareOf", percent(Rounding.tenthPercent(percent)), grams(partG));
  }

  private List<PreviewLine> otherSeeds(OtherSeedDetermination test) {
    String ergot = counted(test.getErgotBodies());
    return List.of(
        plain("sampleLookedThrough", grams(test.getSampleG())),
        plain("sampleNumber", form().count(test.getSampleNumber())),
        plain("otherCereals", counted(test.getOtherCereals())),
        plain("otherPlants", counted(test.getOtherPlants())),
        plain("raphanusAndAgrostemma", counted(test.getRaphanusAndAgrostemma())),
        plain("wildOats", counted(test.getWildOats())),
        plain("loliumTemulentum", counted(test.getLoliumTemulentum())),
        foundErgot(test)
            ? new PreviewLine(
                texts.of("ergotBodies"), texts.of("ergotFound", ergot), Weight.BAD, "")
            : plain("ergotBodies", ergot));
  }

  private LocalFormat form() {
    return words.reader().form();
  }

  private String counted(Integer count) {
    return count == null ? texts.of("notCounted") : form().count(count);
  }

  private String grams(double massG) {
    return form().measure(massG, "g");
  }

  private String percent(double value) {
    return form().measure(value, "%");
  }

  private PreviewLine plain(String key, String text) {
    return new PreviewLine(texts.of(key), text, Weight.PLAIN, "");
  }

  private static List<Replicate> replicates(GerminationTest test) {
    return test.getReplicates().stream()
        .map(replicate -> new Replicate(replicate.getSeeds(), replicate.getNormalSeedlings()))
        .toList();
  }

  private static int seeds(List<Replicate> replicates) {
    return replicates.stream().mapToInt(Replicate::seeds).sum();
  }
}
