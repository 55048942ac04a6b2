package org.kornspur.api.query.advice;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.kornspur.api.http.JsonBody;
import org.kornspur.api.kafka.RulesInForce;
import org.kornspur.api.problem.ApiProblem;
import org.kornspur.api.problem.CropDetail;
import org.kornspur.api.query.QueryService;
import org.kornspur.api.query.RequestWords;
import org.kornspur.api.query.VisibleData;
import org.kornspur.api.readmodel.StandingIndexRow;
import org.kornspur.contract.Cross;
import org.kornspur.contract.HybridDeclared;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.problem.Expected;
import org.kornspur.ingest.problem.Given;
import org.kornspur.processors.advice.MixtureAdvice;
import org.kornspur.processors.advice.MixtureAdvice.Candidate;
import org.kornspur.processors.advice.MixtureAdvice.PassedOver;
import org.kornspur.processors.advice.MixtureStatement;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.dossier.Material;
import org.kornspur.processors.dossier.SeedMeasures;
import org.kornspur.processors.verdict.Fitness;
import org.kornspur.standing.SeedMaterial;

/** Finds the lots that a mixture can be made of. */
@ApplicationScoped
public class MixturePlanning {
  private static final int MOST_LOTS_EACH = 100;
  private static final Comparator<StandingIndexRow> OLDEST_FIRST =
      Comparator.comparing((StandingIndexRow row) -> row.material().orElseThrow().getCropYear())
          .thenComparing(row -> row.subject().id());

  @Inject VisibleData data;
  @Inject QueryService queries;
  @Inject RequestWords words;
  @Inject RulesInForce rules;

  /**
   * The mixture.
   *
   * @throws ApiProblem if the hybrid is not known or the request makes no mixture
   */
  public MixtureView mix(MixtureRequest request) {
    JsonBody body = new JsonBody();
    body.required("hybridId", request.hybridId(), new Expected.Id("hybrid"));
    body.required("massKg", request.massKg(), new Expected.Decimal());
    body.check();
    HybridDeclared hybrid = hybrid(request.hybridId());
    Cross cross = cross(hybrid);
    MixtureAdvice.Request wanted = AdviceRefusals.asProblems(() -> wanted(request, hybrid));
    List<PassedOver> notOfThisKind = new ArrayList<>();
    List<Candidate> candidates = new ArrayList<>();
    candidates.addAll(
        candidates(request.femaleLots(), cross.getFemaleComponentId(), false, notOfThisKind));
    candidates.addAll(
        candidates(request.pollinatorLots(), cross.getPollenComponentId(), true, notOfThisKind));
    MixtureAdvice advice = AdviceRefusals.asProblems(() -> MixtureAdvice.of(wanted, candidates));
    return MixtureView.of(
        hybrid, alsoPassedOver(advice, notOfThisKind), words.words(), queries.asOf());
  }

  private HybridDeclared hybrid(String hybridId) {
    return data.dossier(Subject.hybrid(hybridId))
        .latest(HybridDeclared.class)
        .orElseThrow(
            () ->
                ApiProblem.notFound(new CropDetail.HybridNotDeclared(Given.text(hybridId, false))));
  }

  private static Cross cross(HybridDeclared hybrid) {
    return hybrid.getCrosses().stream()
        .filter(cross -> cross.getSeedComponentId().equals(hybrid.getHybridId()))
        .findFirst()
        .orElseThrow(
            () ->
                ApiProblem.refused(
                    new CropDetail.NoCrossOfHybrid(Given.text(hybrid.getHybridId(), false))));
  }

  private static MixtureAdvice.Request wanted(MixtureRequest request, HybridDeclared hybrid) {
    boolean breeders = request.targetSharePercent() == null;
    double tolerance =
        Optional.ofNullable(request.tolerancePercentPoints())
            .orElse(breeders ? hybrid.getTolerancePercentPoints() : 0);
    if (breeders && request.basis() != null && request.basis() != hybrid.getShareBasis()) {
      throw ApiProblem.refused(new CropDetail.OtherBasis(hybrid.getShareBasis(), request.basis()));
    }
    return new MixtureAdvice.Request(
        request.hybridId(),
        request.massKg(),
        breeders ? hybrid.getPollinatorSharePercent() : request.targetSharePercent(),
        tolerance,
        Optional.ofNullable(request.basis()).orElse(hybrid.getShareBasis()));
  }

  private List<Candidate> candidates(
      List<String> named, String componentId, boolean pollinator, List<PassedOver> notOfThisKind) {
    List<Candidate> found = new ArrayList<>();
    if (named == null) {
      inStock(componentId)
          .forEach(row -> candidate(row, pollinator, notOfThisKind).ifPresent(found::add));
      return found;
    }
    for (String lotId : named.stream().distinct().toList()) {
      Optional<StandingIndexRow> row = data.row(Subject.lot(lotId));
      if (row.isEmpty()) {
        notOfThisKind.add(new PassedOver(lotId, new MixtureStatement.UnknownLot(lotId)));
      } else if (!isSeedOf(row.get(), componentId)) {
        notOfThisKind.add(
            new PassedOver(
                lotId, new MixtureStatement.OtherComponent(Subject.lot(lotId), componentId)));
      } else {
        candidate(row.get(), pollinator, notOfThisKind).ifPresent(found::add);
      }
    }
    return found;
  }

  /** Fit lots before others, so that the bound never cuts off what can be used. */
  private Stream<StandingIndexRow> inStock(String componentId) {
    List<StandingIndexRow> rows =
        data.matching(
            row ->
                row.subject().kind() == Subject.Kind.LOT
                    && isSeedOf(row, componentId)
                    && row.heldKg() > row.givenOutKg());
    Comparator<StandingIndexRow> fitFirst = Comparator.comparing(row -> state(row) != Fitness.FIT);
    return rows.stream().sorted(fitFirst.thenComparing(OLDEST_FIRST)).limit(MOST_LOTS_EACH);
  }

  private static boolean isSeedOf(StandingIndexRow row, String componentId) {
    return row.material()
        .filter(material -> material.getKind().equals(Material.Kind.COMPONENT.name()))
        .map(SeedMaterial::getSeedId)
        .filter(componentId::equals)
        .isPresent();
  }

  /** Raw harvest owes no test and so stands as fit; it is not seed to be mixed. */
  private Optional<Candidate> candidate(
      StandingIndexRow row, boolean pollinator, List<PassedOver> notOfThisKind) {
    String lotId = row.subject().id();
    Fitness state = state(row);
    SeedMeasures measures = SeedMeasures.none();
    if (state == Fitness.FIT) {
      Dossier lot = data.dossier(row.subject());
      if (lot.isRawHarvest()) {
        notOfThisKind.add(new PassedOver(lotId, new MixtureStatement.RawHarvest(row.subject())));
        return Optional.empty();
      }
      measures = rules.judge().measures(lot);
    }
    return Optional.of(new Candidate(lotId, pollinator, state, row.leftKg(), measures));
  }

  private static Fitness state(StandingIndexRow row) {
    return switch (row.state()) {
      case FIT -> Fitness.FIT;
      case NOT_FIT -> Fitness.NOT_FIT;
      case EVIDENCE_OWED, UNKNOWN -> Fitness.EVIDENCE_OWED;
    };
  }

  private static MixtureAdvice alsoPassedOver(MixtureAdvice advice, List<PassedOver> more) {
    return new MixtureAdvice(
        advice.request(),
        advice.portions(),
        advice.mixture(),
        advice.refusal(),
        advice.mostKg(),
        Stream.concat(more.stream(), advice.passedOver().stream()).toList());
  }
}
