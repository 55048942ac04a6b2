package org.kornspur.processors.gates;

import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
import org.kornspur.contract.Admixture;
import org.kornspur.contract.Blend;
import org.kornspur.contract.Category;
import org.kornspur.contract.LotMass;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.statement.Statement;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.dossier.Material;
import org.kornspur.processors.dossier.Report;
import org.kornspur.processors.dossier.Report.Scheme;
import org.kornspur.processors.finding.ComponentsFinding;
import org.kornspur.processors.finding.Evidence;
import org.kornspur.processors.finding.Part;
import org.kornspur.processors.pedigree.Edge;
import org.kornspur.processors.verdict.Verdict;

/**
 * What a lot is made of: a technical mixture of female and pollinator, an admixture of hybrid seed
 * and open-pollinated rye. Whatever else came together in it, be it from several crops, is one
 * material, and that which the lot was declared to be.
 */
final class LotComponents {
  private final Dossier dossier;
  private final ComponentsCheck check;
  private final List<Blend> blends;
  private final List<Admixture> admixtures;

  LotComponents(Dossier dossier) {
    this.dossier = dossier;
    this.check = new ComponentsCheck(dossier);
    this.blends =
        dossier.facts(Blend.class).stream().filter(blend -> isThis(blend.getBlendLotId())).toList();
    this.admixtures =
        dossier.facts(Admixture.class).stream()
            .filter(admixture -> isThis(admixture.getIntoLotId()))
            .toList();
  }

  private boolean isThis(String lotId) {
    return Subject.lot(lotId).equals(dossier.subject());
  }

  List<Verdict> verdicts() {
    blends.forEach(this::blend);
    admixtures.forEach(this::admixture);
    List<Edge> together = together();
    if (blends.isEmpty() && admixtures.isEmpty() && isOfOneCrop(together)) {
      return List.of();
    }
    together.forEach(edge -> check.rests(edge.factId()));
    dossier.declaredLot().map(FactType::idOf).ifPresent(check::rests);
    List<Statement> materials =
        Stream.concat(
                together.stream()
                    .map(Edge::parent)
                    .distinct()
                    .flatMap(parent -> check.materialOf(parent).stream()),
                ownMaterials())
            .<Statement>map(ComponentsCheck::seed)
            .distinct()
            .sorted(Comparator.comparing(Statement::toString))
            .toList();
    if (materials.size() > 1) {
      check.isWrong(new ComponentsFinding.DifferentSeed(materials));
    }
    return check.verdicts(
        blends.isEmpty()
            ? new ComponentsFinding.OneMaterial(materials)
            : new ComponentsFinding.RightMixture(Subject.hybrid(blends.get(0).getHybridId())));
  }

  /** Of one crop nothing is to be compared; so too where nothing came in at all. */
  private static boolean isOfOneCrop(List<Edge> together) {
    return together.stream().allMatch(edge -> edge.by() == FactType.HARVEST)
        && together.stream().map(Edge::parent).distinct().count() <= 1;
  }

  /** All that came in, but for the parts of a mixture and the rye that was admixed. */
  private List<Edge> together() {
    Set<Subject> openPollinated = new HashSet<>();
    admixtures.stream()
        .flatMap(admixture -> admixture.getOpenPollinatedLots().stream())
        .map(part -> Subject.lot(part.getLotId()))
        .filter(this::isOpenPollinated)
        .forEach(openPollinated::add);
    return dossier.edgesIn().stream()
        .filter(edge -> edge.by() != FactType.BLEND)
        .filter(edge -> edge.by() != FactType.ADMIXTURE || !openPollinated.contains(edge.parent()))
        .toList();
  }

  private boolean isOpenPollinated(Subject lot) {
    return dossier
        .parent(lot)
        .flatMap(Report.FromParent::material)
        .filter(OpenPollinatedRye::canBe)
        .isPresent();
  }

  /** What facts of the lot itself make of it. */
  private Stream<Material> ownMaterials() {
    Optional<Material> mixture = blends.isEmpty() ? Optional.empty() : dossier.materialAsMade();
    return Stream.concat(mixture.stream(), dossier.declaredMaterial().stream());
  }

  private void blend(Blend blend) {
    check.rests(FactType.idOf(blend));
    Optional<Scheme> scheme = dossier.scheme();
    if (scheme.isEmpty()) {
      check.owes(new Evidence.MasterData(Subject.hybrid(blend.getHybridId())));
      return;
    }
    check.rests(scheme.get().factId());
    check
        .crossing(scheme.get(), blend.getHybridId())
        .ifPresent(
            crossing -> {
              each(blend.getFemales(), Part.FEMALE, crossing.femaleId());
              each(blend.getPollinators(), Part.POLLINATOR, crossing.pollenId());
            });
  }

  private void each(List<LotMass> parts, Part as, String componentId) {
    for (LotMass part : parts) {
      Subject lot = Subject.lot(part.getLotId());
      Optional<Material> held = check.materialOf(lot);
      held.ifPresent(material -> check.holds(lot, material, Category.BASIC));
      held.filter(
              material ->
                  material.kind() != Material.Kind.COMPONENT
                      || !material.seedId().equals(componentId))
          .ifPresent(material -> wentInAs(lot, as, material, componentId));
    }
  }

  private void admixture(Admixture admixture) {
    check.rests(FactType.idOf(admixture));
    for (LotMass part : admixture.getHybridLots()) {
      Subject lot = Subject.lot(part.getLotId());
      check
          .materialOf(lot)
          .filter(material -> material.kind() != Material.Kind.F1_SEED)
          .ifPresent(material -> wentInAs(lot, Part.HYBRID, material, material.hybridId()));
    }
  }

  private void wentInAs(Subject lot, Part as, Material material, String asked) {
    check.isWrong(new ComponentsFinding.WentInAs(lot, as, ComponentsCheck.seed(material), asked));
  }
}
