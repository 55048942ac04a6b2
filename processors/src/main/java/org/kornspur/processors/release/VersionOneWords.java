package org.kornspur.processors.release;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import org.kornspur.ingest.statement.Coded;
import org.kornspur.ingest.statement.Statement;
import org.kornspur.ingest.statement.Value;
import org.kornspur.processors.finding.BasisFinding;
import org.kornspur.processors.finding.BlendFinding;
import org.kornspur.processors.finding.ContractFinding;
import org.kornspur.processors.finding.Evidence;
import org.kornspur.processors.finding.Reference;
import org.kornspur.processors.standards.Limit;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.processors.verdict.Verdict;

/**
 * English words that version 1 of the canonical text had in it: what is owed, and where a limit of
 * the breeder stands. They never change, or a seal of that version could not be checked any more.
 */
final class VersionOneWords {
  private static final Map<String, String> OWED =
      Map.ofEntries(
          Map.entry(code(Evidence.PurityTest.class), "a test of analytical purity"),
          Map.entry(code(Evidence.GerminationTest.class), "a germination test"),
          Map.entry(
              code(Evidence.GerminationTestThatGrows.class),
              "a new germination test: none of the seed grows"),
          Map.entry(code(Evidence.GerminationTestOf.class), "a germination test of {lot}"),
          Map.entry(
              code(Evidence.GerminationTestOfSeeds.class), "a test of at least {seeds} seeds"),
          Map.entry(code(Evidence.RetestOfFourHundred.class), "a retest, four replicates of 100"),
          Map.entry(code(Evidence.TestOfFourHundred.class), "a test of four replicates of 100"),
          Map.entry(code(Evidence.FurtherGerminationTest.class), "a further test"),
          Map.entry(code(Evidence.NewGerminationTest.class), "a new germination test"),
          Map.entry(code(Evidence.MoistureTest.class), "a test of moisture"),
          Map.entry(code(Evidence.KernelWeightOf.class), "the thousand-kernel weight of {lot}"),
          Map.entry(
              code(Evidence.KernelWeightAndGermination.class),
              "thousand-kernel weight and germination of the lots that went in"),
          Map.entry(
              code(Evidence.LargerKernelSample.class), "a larger sample of kernels told apart"),
          Map.entry(
              code(Evidence.Sampling.class),
              "the record of a sample drawn by an accredited sampler"),
          Map.entry(code(Evidence.SampleOfWholeLot.class), "a sample of the whole lot of {lot}"),
          Map.entry(
              code(Evidence.TestsOfDrawnSample.class),
              "tests of a sample that stands for the lot: {kinds}"),
          Map.entry(
              code(Evidence.DeclaredLaboratory.class),
              "the declaration of the laboratory for {test}"),
          Map.entry(code(Evidence.PurityTestOf.class), "a purity test of at least {least}"),
          Map.entry(
              code(Evidence.NewSampleForGermination.class),
              "a new sample and its germination test"),
          Map.entry(code(Evidence.AcceptedLabel.class), "the authority's consent to the label"),
          Map.entry(code(Evidence.OneRulebook.class), "one rulebook for all that was put together"),
          Map.entry(code(Evidence.HeavierSample.class), "a new sample that weighs enough"),
          Map.entry(code(Evidence.Correction.class), "a correction of {facts}"),
          Map.entry(code(Evidence.MasterData.class), "the master data of hybrid {hybrid}"),
          Map.entry(
              code(Evidence.PostControlOfBasicSeed.class),
              "the post-control result of this basic seed, before certified seed that comes of it"
                  + " is certified"),
          Map.entry(
              code(Evidence.SampleOfPrimarySamples.class),
              "a new sample of at least {primarySamples} primary sample(s)"),
          Map.entry(code(Evidence.FirstCount.class), "a first sample in which {kind} were counted"),
          Map.entry(code(Evidence.FirstSample.class), "a first sample of {least}"),
          Map.entry(code(Evidence.SecondSample.class), "a second sample of {least}"),
          Map.entry(
              code(Evidence.SowingOfFemale.class), "the sowing of the female, seed of {component}"),
          Map.entry(
              code(Evidence.SowingOfPollenParent.class),
              "the sowing of the pollen parent, seed of {component}"),
          Map.entry(code(Evidence.SowingOf.class), "the sowing of seed of {component}"),
          Map.entry(
              code(Evidence.SowingOfMixture.class),
              "the sowing of the technical mixture of {hybrid}"),
          Map.entry(code(Evidence.OriginOf.class), "the origin of {subject}"),
          Map.entry(code(Evidence.CropDeclaration.class), "the declaration of the field crop"),
          Map.entry(
              code(Evidence.LotOrigin.class),
              "the harvest, declaration or mixture that this lot came from"),
          Map.entry(code(Evidence.KnownRulebook.class), "a rulebook that is known here"),
          Map.entry(
              code(Evidence.SterilityCheck.class),
              "a sterility check of the female, by plants examined in flower or by bagged ears"),
          Map.entry(code(Evidence.FurtherVisits.class), "the report of {visits} further visit(s)"),
          Map.entry(
              code(Evidence.SheddingCount.class),
              "a visit in flower (BBCH 61 to 69) with shedding plants counted over female plants"
                  + " in receptive flower"),
          Map.entry(
              code(Evidence.OffTypesByArea.class),
              "a field inspection with plants not true to type counted by area"),
          Map.entry(
              code(Evidence.OffTypesByPlants.class),
              "a field inspection with plants not true to type counted by plants"),
          Map.entry(
              code(Evidence.OffTypesByAreaOrPlants.class),
              "a field inspection with plants not true to type counted by area or plants"),
          Map.entry(
              code(Evidence.PlantCount.class),
              "a field inspection with {kind} counted over an area"),
          Map.entry(
              code(Evidence.SourceLookedAt.class),
              "what an inspector or quality found there, recorded as pollen source {source}"),
          Map.entry(code(Evidence.CorrectionOfItsKind.class), "a correction of the kind of {fact}"),
          Map.entry(code(Evidence.RuleFor.class), "a rulebook with a line on it"),
          Map.entry(code(Evidence.FloweringDays.class), "the days on which the crop flowers"),
          Map.entry(code(Evidence.LargerCount.class), "a count of at least {least}"),
          Map.entry(
              code(Evidence.CountFromStage.class),
              "a count of at least {least} from BBCH {stage} on"),
          Map.entry(code(Evidence.VisitsInFlower.class), "{visits} visit(s) in flower"),
          Map.entry(
              code(Evidence.VisitsToPollenParent.class), "{visits} visit(s) to the pollen parent"),
          Map.entry(
              code(Evidence.OffTypesOfFemale.class),
              "plants not true to type counted in the female"),
          Map.entry(
              code(Evidence.SheddingInPostControl.class),
              "a post-control result with plants that are not male-sterile counted"),
          Map.entry(code(Evidence.YearsWithoutRye.class), "the years without rye on this ground"),
          Map.entry(
              code(Evidence.ExceptionForArea.class), "the authority's exception for the area"),
          Map.entry(
              code(Evidence.PollenParentAtHarvest.class),
              "whether the pollen parent was removed before the harvest"),
          Map.entry(code(Evidence.InspectionOfCrop.class), "a field inspection of that crop"),
          Map.entry(
              code(Evidence.ConfirmationByQuality.class),
              "the word of quality on {first}{further}"),
          Map.entry(
              code(Evidence.WithdrawalOfAllButOne.class),
              "the withdrawal of the facts of all but one of them"),
          Map.entry(code(Evidence.ReportOfFault.class), "a report of the fault"),
          Map.entry(code(Evidence.ReadableDossier.class), "a dossier that can be read and judged"),
          Map.entry(code(Evidence.Recorded.class), "{words}"),
          Map.entry(code(BasisFinding.Recorded.class), "{sentence}"));

  private static final String NOT_JUDGED = code(BasisFinding.NotJudged.class);
  private static final String BEYOND_LIMITS = code(ContractFinding.BeyondLimits.class);
  private static final MathContext SIX_FIGURES = new MathContext(6, RoundingMode.HALF_UP);

  private VersionOneWords() {}

  private static String code(Class<? extends Statement> kind) {
    return Coded.codeOf(kind);
  }

  /** What a verdict owes. */
  static String owed(Verdict.Owed verdict) {
    return verdict.evidence().stream()
        .map(evidence -> owed(evidence, verdict))
        .sorted()
        .collect(Collectors.joining(", "));
  }

  private static String owed(Coded evidence, Verdict verdict) {
    String words = OWED.get(evidence.code());
    boolean isOne = false;
    for (Coded.Argument argument : evidence.arguments()) {
      words = words.replace("{" + argument.name() + "}", argument(argument, verdict));
      isOne |= argument.value().equals(new Value.Count(1));
    }
    return words
        .replace("{kind}", verdict.gate() == Gate.ERGOT ? "bodies of ergot" : verdict.aspect())
        .replace("{least}", "the same mass")
        .replace("{further}", "")
        .replace("(s)", isOne ? "" : "s");
  }

  private static String argument(Coded.Argument argument, Verdict verdict) {
    String plain = plain(argument.value());
    return switch (argument.name()) {
      case "facts" -> facts(plain, verdict);
      case "further" -> ", and " + plain + " more";
      default -> plain;
    };
  }

  /** Facts to correct; of a fault it is one of them, of limits of the contract it is all. */
  private static String facts(String ids, Verdict verdict) {
    boolean isFault =
        verdict.findings().stream().anyMatch(found -> found.code().equals(NOT_JUDGED));
    if (isFault && verdict.factIds().size() > 1) {
      return "one of the facts " + ids;
    }
    boolean isBeyondLimits =
        verdict.findings().stream().anyMatch(found -> found.code().equals(BEYOND_LIMITS));
    return isBeyondLimits ? ids : "fact " + ids;
  }

  /** The section of a verdict's limit. */
  static String section(Limit limit, Verdict verdict) {
    if (limit.rulebookId().equals(Limit.STATED)) {
      return "fact " + verdict.factIds().get(0);
    }
    return limit.rulebookId().equals(Limit.BREEDER)
        ? ratio(verdict).orElse(limit.section())
        : limit.section();
  }

  private static Optional<String> ratio(Verdict verdict) {
    Optional<Coded> ratio =
        verdict.findings().stream()
            .filter(finding -> finding.code().equals(code(BlendFinding.Ratio.class)))
            .findFirst();
    return ratio.map(
        found ->
            "ratio %s %% with a tolerance of %s%s"
                .formatted(
                    plain(found, "share"),
                    points(plain(found, "tolerance")),
                    said(found, "extra").map(VersionOneWords::extra).orElse("")));
  }

  private static String points(String number) {
    return number + (number.equals("1") ? " percentage point" : " percentage points");
  }

  /** What a rulebook adds to the breeder's tolerance. */
  private static String extra(Coded cited) {
    Coded source = said(cited, "source").orElseThrow();
    boolean isPractice = source.code().equals(code(Reference.CommonPractice.class));
    boolean isVerified = !source.code().equals(code(Reference.NotVerified.class));
    return "; at most %s beyond it (%s %s: %s, %s, in force from %s%s%s)"
        .formatted(
            points(plain(said(cited, "bound").orElseThrow(), "value")),
            plain(source, "rulebook"),
            plain(source, "edition"),
            isPractice ? Limit.NO_SOURCE : plain(source, "text"),
            plain(source, isPractice ? "note" : "section"),
            plain(source, "from"),
            source.argument("to").map(day -> " to " + plain(day)).orElse(""),
            isVerified ? "" : "; not verified against the text");
  }

  private static Optional<Coded> said(Coded statement, String name) {
    return statement.argument(name).map(value -> ((Value.Said) value).said());
  }

  private static String plain(Coded statement, String name) {
    return plain(statement.argument(name).orElseThrow());
  }

  private static String plain(Value value) {
    if (value instanceof Value.Amount amount) {
      return number(amount.number());
    } else if (value instanceof Value.OfSubject subject) {
      return switch (subject.subject().kind()) {
        case HYBRID, SOURCE -> subject.subject().id();
        default -> subject.subject().toString();
      };
    } else if (value instanceof Value.Fact fact) {
      return fact.factId();
    } else if (value instanceof Value.Text text) {
      return text.text();
    } else if (value instanceof Value.Term term) {
      return term.name();
    } else if (value instanceof Value.Day day) {
      return day.day().toString();
    } else if (value instanceof Value.Count count) {
      return Long.toString(count.count());
    } else if (value instanceof Value.Several several) {
      return several.values().stream()
          .map(VersionOneWords::plain)
          .collect(Collectors.joining(", "));
    }
    Coded said = ((Value.Said) value).said();
    Value.Amount least = (Value.Amount) said.argument("value").orElseThrow();
    return "at least " + number(least.number()) + " " + least.unit();
  }

  /** A number with at most six figures and no trailing zeros; whole numbers stay whole. */
  private static String number(double value) {
    if (value == Math.rint(value) && Math.abs(value) < 1e15) {
      return Long.toString((long) value);
    }
    return new BigDecimal(value).round(SIX_FIGURES).stripTrailingZeros().toPlainString();
  }
}
