package org.kornspur.processors.gates;

import java.util.List;
import org.kornspur.contract.PostControlMethod;
import org.kornspur.contract.PostControlResult;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.finding.Advice;
import org.kornspur.processors.finding.Aspect;
import org.kornspur.processors.finding.PostControlFinding;
import org.kornspur.processors.gates.Findings.GateAspect;
import org.kornspur.processors.standards.Quantity;
import org.kornspur.processors.standards.Rulebook;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.processors.verdict.Verdict;

/**
 * Plants of a lot grown in a control plot or told apart by markers: identity, off-types, plants
 * that shed though they should be sterile, plants that are no hybrid.
 *
 * <p>A lot fails a count from the reject number on: the fewest plants that a lot just at the
 * standard shows with no more than the producer's risk, exact binomial, as the OECD guidelines for
 * control plots do. The standard is the rulebook's, or a stricter one that breeder or authority
 * states for the material. A text that gives shares of plants is held against the shares
 * themselves: Seed Ordinance (SaatV), section 16(3a). While nobody has grown the lot, nothing is
 * owed for the lot itself; a count of too few plants owes a larger one, unless it fails already.
 * Where a part failed, its whole and the other parts of it owe a result of their own, {@link
 * OwedForFailedPart}.
 *
 * <p>A marker method errs. Its reject number is the one for the share that it calls bad where the
 * standard's share is, if that is less, so that bad plants that it misses count; the bad plants
 * that it makes up excuse nothing. A count within the standard owes the error rates where they are
 * not stated, and a count by another method where the method's own errors reach the standard; see
 * {@link MethodCount}.
 */
final class PostControlGate implements GateRule {
  @Override
  public List<Verdict> judge(Dossier dossier, Rulebook rulebook) {
    return SeedLot.of(dossier, rulebook).map(PostControlGate::judge).orElse(List.of());
  }

  private static List<Verdict> judge(SeedLot lot) {
    List<PostControlResult> results = lot.dossier().facts(PostControlResult.class);
    SampleSize size = new SampleSize(lot.limit(Quantity.POST_CONTROL_PLANTS));
    return results.stream()
        .flatMap(result -> new PostControlCounts(lot, result, size).verdicts().stream())
        .toList();
  }

  static Verdict identity(PostControlResult result) {
    boolean confirmed = result.getIdentityConfirmed();
    PostControlMethod method = result.getMethod();
    String test = result.getPlotOrTestId();
    return Findings.of(
            GateAspect.of(
                Gate.POST_CONTROL, "identity, " + key(result), new Aspect.Identity(method, test)),
            List.of(result.getHeader().getFactId()),
            confirmed
                ? new PostControlFinding.IdentityConfirmed(method, test)
                : new PostControlFinding.IdentityDenied(method, test))
        .mustBeNone(
            confirmed ? 0 : 1, "denials", new Advice.StopAndTell(), new Advice.AuthorityDecides());
  }

  static String key(PostControlResult result) {
    return switch (result.getMethod()) {
      case PLOT -> "plot " + result.getPlotOrTestId();
      case MARKER -> "marker test " + result.getPlotOrTestId();
    };
  }
}
