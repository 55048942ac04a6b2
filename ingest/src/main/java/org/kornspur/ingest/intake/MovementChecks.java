package org.kornspur.ingest.intake;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.function.Function;
import org.kornspur.contract.Admixture;
import org.kornspur.contract.Blend;
import org.kornspur.contract.Conditioning;
import org.kornspur.contract.Dispatch;
import org.kornspur.contract.LotMass;
import org.kornspur.contract.LotMerge;
import org.kornspur.contract.LotSplit;
import org.kornspur.contract.Sampling;
import org.kornspur.contract.Sowing;
import org.kornspur.ingest.problem.Given;
import org.kornspur.ingest.problem.ListProblem;
import org.kornspur.ingest.problem.NumberProblem;
import org.kornspur.ingest.statement.Value.Amount;

/**
 * What movements of seed must be in themselves. Within one movement each lot stands once: twice is
 * a double entry, or a lot made of itself.
 */
final class MovementChecks {

  /**
   * What scales may differ between intake and outlet, as a share of what went in. Common practice,
   * no source.
   */
  private static final double WEIGHING_TOLERANCE = 0.02;

  private MovementChecks() {}

  static void check(Sowing sowing, Problems into) {
    lots(into).lots("sown", sowing.getSown());
  }

  /** Conditioning makes new lots, and no seed out of nothing. */
  static void check(Conditioning conditioning, Problems into) {
    lots(into).lots("inputs", conditioning.getInputs()).lots("outputs", conditioning.getOutputs());
    double inKg = sumKg(conditioning.getInputs());
    double dryingLossKg = Objects.requireNonNullElse(conditioning.getDryingLossKg(), 0.0);
    double outKg = sumKg(conditioning.getOutputs()) + conditioning.getScreeningsKg() + dryingLossKg;
    if (outKg > inKg * (1 + WEIGHING_TOLERANCE)) {
      into.add(
          "outputs",
          new Given.MassWithScreenings(Amount.kilograms(outKg)),
          new NumberProblem.MoreOutThanIn(
              Amount.kilograms(inKg), Amount.percent(100 * WEIGHING_TOLERANCE)));
    }
  }

  private static double sumKg(List<LotMass> masses) {
    return masses.stream().mapToDouble(LotMass::getMassKg).sum();
  }

  /** The parts of a lot are lots of their own. */
  static void check(LotSplit split, Problems into) {
    lots(into).note("fromLotId", split.getFromLotId()).lots("parts", split.getParts());
  }

  /** Lots put together make a new lot. */
  static void check(LotMerge merge, Problems into) {
    lots(into).lots("inputs", merge.getInputs()).note("intoLotId", merge.getIntoLotId());
  }

  /** A technical mixture is a new lot, and no lot is female and pollinator at once. */
  static void check(Blend blend, Problems into) {
    lots(into)
        .lots("females", blend.getFemales())
        .lots("pollinators", blend.getPollinators())
        .note("blendLotId", blend.getBlendLotId());
  }

  /** Hybrid seed with open-pollinated rye added is a new lot. */
  static void check(Admixture admixture, Problems into) {
    lots(into)
        .lots("hybridLots", admixture.getHybridLots())
        .lots("openPollinatedLots", admixture.getOpenPollinatedLots())
        .note("intoLotId", admixture.getIntoLotId());
  }

  /** A sample is lighter than the lot that it stands for. */
  static void check(Sampling sampling, Problems into) {
    if (sampling.getSubmittedSampleG() > sampling.getLotMassKg() * 1000) {
      into.add(
          "submittedSampleG",
          sampling.getSubmittedSampleG(),
          new NumberProblem.SampleAboveLot(Amount.kilograms(sampling.getLotMassKg())));
    }
  }

  /** A label is on one bag. */
  static void check(Dispatch dispatch, Problems into) {
    List<String> labels = dispatch.getLabelNumbers();
    Once once = new Once(into, ListProblem.LabelTwice::new);
    for (int index = 0; index < labels.size(); index++) {
      once.note("labelNumbers[" + index + "]", labels.get(index));
    }
  }

  private static Once lots(Problems into) {
    return new Once(into, ListProblem.LotTwice::new);
  }

  /**
   * Notes what stands in one movement, and what of it stands there already.
   *
   * @param twice the problem, from the place where it stands already
   */
  private record Once(
      Problems into, Function<String, ListProblem> twice, Map<String, String> firstSeenAt) {
    Once(Problems into, Function<String, ListProblem> twice) {
      this(into, twice, new HashMap<>());
    }

    Once note(String path, String id) {
      String earlier = firstSeenAt.putIfAbsent(id, path);
      if (earlier != null) {
        into.add(path, id, twice.apply(earlier));
      }
      return this;
    }

    Once lots(String path, List<LotMass> masses) {
      for (int index = 0; index < masses.size(); index++) {
        note(path + "[" + index + "].lotId", masses.get(index).getLotId());
      }
      return this;
    }
  }
}
