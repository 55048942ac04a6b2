package org.kornspur.api.web.bench;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.api.text.LocalForm;
import org.kornspur.api.text.PageTexts;
import org.kornspur.api.text.Words;
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
public final class ResultPreview {
  private final PageTexts texts;
  private final Words words;
  private final LocalForm form;

  ResultPreview(PageTexts texts, Words words) {
    this.texts = texts;
    this.words = words;
    this.form = words.reader().form();
  }

  /** How a line weighs. */
  enum Weight {
    PLAIN,
    GOOD,
    OWED,
    BAD
  }

  /**
   * One thing that follows.
   *
   * @param source where a number in it is published; empty where there is none
   */
  public record Line(String label, String text, Weight weight, String source) {

    /** Class of its box; empty where it weighs nothing. */
    public String look() {
      return switch (weight) {
        case PLAIN -> "";
        case GOOD -> "good";
        case OWED -> "owed";
        case BAD -> "bad";
      };
    }
  }

  /**
   * What follows from a test.
   *
   * @param earlier germination tests of the lot by the same laboratory that count, the first first
   */
  List<Line> of(SpecificRecord test, List<GerminationTest> earlier) {
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
      return List.of(plain(texts.of("moisturePercent"), percent(moisture.getMoisturePercent())));
    }
    return List.of();
  }

  /** Whether a result says that there is ergot. */
  static boolean foundErgot(SpecificRecord test) {
    return test instanceof OtherSeedDetermination counted
        && counted.getErgotBodies() != null
        && counted.getErgotBodies() > 0;
  }

  private List<Line> germination(GerminationTest test, List<GerminationTest> earlier) {
    List<Replicate> replicates = replicates(test);
    List<Line> lines = new ArrayList<>();
    lines.add(
        plain(
            texts.of("germination"),
            texts.of(
                "germinationIs",
                percent(GerminationMean.wholePercent(replicates)),
                form.count(replicates.stream().mapToInt(Replicate::normalSeedlings).sum()),
                form.count(seeds(replicates)))));
    lines.add(range(ReplicateTolerance.judge(replicates)));
    repeated(test, earlier).ifPresent(before -> lines.add(beside(before, replicates)));
    return List.copyOf(lines);
  }

  private Line range(Agreement outcome) {
    if (outcome instanceof Agreement.Agrees within) {
      return line(
          texts.of("range"),
          texts.of("within", form.number(within.difference()), form.number(within.tolerated())),
          Weight.GOOD,
          words.plain(Reference.of(within.source())));
    }
    if (outcome instanceof Agreement.Disagrees exceeded) {
      return line(
          texts.of("range"),
          texts.of(
              "exceeded", form.number(exceeded.difference()), form.number(exceeded.tolerated())),
          Weight.OWED,
          words.plain(Reference.of(exceeded.source())));
    }
    return line(
        texts.of("range"),
        words.plain(((Agreement.NotTabulated) outcome).reason()),
        Weight.OWED,
        "");
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

  private Line beside(GerminationTest before, List<Replicate> now) {
    List<Replicate> then = replicates(before);
    int first = GerminationMean.wholePercent(then);
    String label = texts.of("beside", form.day(before.getHeader().getHappenedAt()), percent(first));
    Agreement agreement =
        TestCompatibility.compare(
            first, seeds(then), GerminationMean.wholePercent(now), seeds(now));
    if (agreement instanceof Agreement.Agrees agrees) {
      return line(
          label,
          texts.of("agrees", form.number(agrees.difference()), form.number(agrees.tolerated())),
          Weight.GOOD,
          words.plain(Reference.of(agrees.source())));
    }
    if (agreement instanceof Agreement.Disagrees apart) {
      return line(
          label,
          texts.of("disagrees", form.number(apart.difference()), form.number(apart.tolerated())),
          Weight.OWED,
          words.plain(Reference.of(apart.source())));
    }
    return line(label, words.plain(((Agreement.NotTabulated) agreement).reason()), Weight.OWED, "");
  }

  private List<Line> purity(PurityTest test) {
    double allG = test.getPureSeedG() + test.getInertMatterG() + test.getOtherSeedsG();
    return List.of(
        plain(texts.of("sampleLookedThrough"), grams(allG)),
        plain(texts.of("pureSeed"), share(test.getPureSeedG(), allG)),
        plain(texts.of("inertMatter"), share(test.getInertMatterG(), allG)),
        plain(texts.of("otherSeedsByMass"), share(test.getOtherSeedsG(), allG)));
  }

  private String share(double partG, double allG) {
    double percent = 100 * partG / allG;
    return Rounding.isTrace(percent)
        ? texts.of("trace")
        : texts.of("shareOf", percent(Rounding.tenthPercent(percent)), grams(partG));
  }

  private List<Line> otherSeeds(OtherSeedDetermination test) {
    List<Line> lines = new ArrayList<>();
    lines.add(plain(texts.of("sampleLookedThrough"), grams(test.getSampleG())));
    lines.add(plain(texts.of("sampleNumber"), form.count(test.getSampleNumber())));
    lines.add(plain(texts.of("otherCereals"), counted(test.getOtherCereals())));
    lines.add(plain(texts.of("otherPlants"), counted(test.getOtherPlants())));
    lines.add(plain(texts.of("raphanusAndAgrostemma"), counted(test.getRaphanusAndAgrostemma())));
    lines.add(plain(texts.of("wildOats"), counted(test.getWildOats())));
    lines.add(plain(texts.of("loliumTemulentum"), counted(test.getLoliumTemulentum())));
    lines.add(
        foundErgot(test)
            ? line(
                texts.of("ergotBodies"),
                texts.of("ergotFound", counted(test.getErgotBodies())),
                Weight.BAD,
                "")
            : plain(texts.of("ergotBodies"), counted(test.getErgotBodies())));
    return List.copyOf(lines);
  }

  private String counted(Integer count) {
    return count == null ? texts.of("notCounted") : form.count(count);
  }

  private String grams(double massG) {
    return form.measure(massG, "g");
  }

  private String percent(double value) {
    return form.measure(value, "%");
  }

  private Line plain(String label, String text) {
    return line(label, text, Weight.PLAIN, "");
  }

  private Line line(String label, String text, Weight weight, String source) {
    return new Line(label, text, weight, source);
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
