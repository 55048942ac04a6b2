package org.kornspur.processors.gates;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Predicate;
import org.kornspur.contract.Category;
import org.kornspur.contract.ComponentKind;
import org.kornspur.contract.FieldCropDeclared;
import org.kornspur.ingest.contract.CategoryRank;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.statement.Coded;
import org.kornspur.ingest.statement.Statement;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.dossier.Material;
import org.kornspur.processors.dossier.Report;
import org.kornspur.processors.dossier.Report.Crossing;
import org.kornspur.processors.dossier.Report.Scheme;
import org.kornspur.processors.finding.Advice;
import org.kornspur.processors.finding.ComponentsFinding;
import org.kornspur.processors.finding.Evidence;
import org.kornspur.processors.pedigree.Edge;
import org.kornspur.processors.standards.CropCategories;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.processors.verdict.Verdict;

/**
 * One look at one dossier for {@link ComponentsGate}: gathers what is wrong and what is owed, of a
 * crop here, of a lot in {@link LotComponents}.
 */
final class ComponentsCheck {
  private final Dossier dossier;
  private final List<ComponentsFinding> wrong = new ArrayList<>();
  private final Set<Evidence> owed = new LinkedHashSet<>();
  private final Set<String> factIds = new TreeSet<>();

  ComponentsCheck(Dossier dossier) {
    this.dossier = dossier;
  }

  List<Verdict> crop(FieldCropDeclared crop) {
    factIds.add(crop.getHeader().getFactId());
    Optional<Scheme> scheme = dossier.scheme();
    if (scheme.isEmpty()) {
      Subject hybrid = Subject.hybrid(crop.getHybridId());
      owed.add(new Evidence.MasterData(hybrid));
      return verdicts(new ComponentsFinding.Right(hybrid));
    }
    factIds.add(scheme.get().factId());
    switch (crop.getRole()) {
      case STERILE_FEMALE -> sterileFemale(crop, scheme.get());
      case MAINTAINER -> alone(crop, scheme.get(), ComponentKind.MAINTAINER_LINE);
      case POLLINATOR -> alone(crop, scheme.get(), ComponentKind.RESTORER_POLLINATOR);
      case FERTILE_LINE -> alone(crop, scheme.get(), ComponentKind.FERTILE_LINE);
      case F1_MIXTURE -> mixture(crop, scheme.get());
    }
    categoriesAreHighEnough(crop);
    return verdicts(new ComponentsFinding.Right(Subject.hybrid(crop.getHybridId())));
  }

  void rests(String factId) {
    factIds.add(factId);
  }

  void isWrong(ComponentsFinding fault) {
    wrong.add(fault);
  }

  void owes(Evidence evidence) {
    owed.add(evidence);
  }

  private void categoriesAreHighEnough(FieldCropDeclared crop) {
    for (Edge edge : dossier.edgesIn()) {
      dossier
          .parent(edge.parent())
          .flatMap(Report.FromParent::material)
          .ifPresent(
              sown -> holds(edge.parent(), sown, CropCategories.lastSownFor(crop.getCategory())));
    }
  }

  void holds(Subject lot, Material material, Category last) {
    if (CategoryRank.isLower(material.category(), last)) {
      wrong.add(new ComponentsFinding.CategoryTooLow(lot, material.category(), last));
    }
  }

  private void sterileFemale(FieldCropDeclared crop, Scheme scheme) {
    kindIs(crop, scheme, Set.of(ComponentKind.STERILE_LINE, ComponentKind.STERILE_SINGLE_CROSS));
    Optional<Crossing> crossing = crossing(scheme, crop.getSeedComponentId());
    if (crossing.isEmpty()) {
      return;
    }
    String female = crossing.get().femaleId();
    String pollen = crossing.get().pollenId();
    pollenIs(crop, pollen);
    Set<String> sown =
        parentsAre(
            material ->
                material.kind() == Material.Kind.COMPONENT
                    && (material.seedId().equals(female) || material.seedId().equals(pollen)),
            new ComponentsFinding.FemaleOrPollen(female, pollen));
    if (!sown.contains(female)) {
      owed.add(new Evidence.SowingOfFemale(female));
    }
    if (!sown.contains(pollen)) {
      owed.add(new Evidence.SowingOfPollenParent(pollen));
    }
  }

  private void alone(FieldCropDeclared crop, Scheme scheme, ComponentKind kind) {
    kindIs(crop, scheme, Set.of(kind));
    String line = crop.getSeedComponentId();
    Set<String> sown =
        parentsAre(
            material ->
                material.kind() == Material.Kind.COMPONENT && material.seedId().equals(line),
            new ComponentsFinding.Line(line));
    if (sown.isEmpty()) {
      owed.add(new Evidence.SowingOf(line));
    }
  }

  private void mixture(FieldCropDeclared crop, Scheme scheme) {
    String hybrid = scheme.hybridId();
    if (!crop.getSeedComponentId().equals(hybrid)) {
      wrong.add(
          new ComponentsFinding.CropGivesOther(crop.getSeedComponentId(), Subject.hybrid(hybrid)));
    }
    crossing(scheme, hybrid).ifPresent(crossing -> pollenIs(crop, crossing.pollenId()));
    Set<String> sown =
        parentsAre(
            material ->
                material.kind() == Material.Kind.TECHNICAL_MIXTURE
                    && material.seedId().equals(hybrid),
            new ComponentsFinding.MixtureOf(Subject.hybrid(hybrid)));
    if (sown.isEmpty()) {
      owed.add(new Evidence.SowingOfMixture(Subject.hybrid(hybrid)));
    }
  }

  private void kindIs(FieldCropDeclared crop, Scheme scheme, Set<ComponentKind> kinds) {
    ComponentKind kind = scheme.components().get(crop.getSeedComponentId());
    if (kind == null || !kinds.contains(kind)) {
      wrong.add(
          new ComponentsFinding.NotOfRole(
              crop.getSeedComponentId(), Optional.ofNullable(kind), crop.getRole()));
    }
  }

  private void pollenIs(FieldCropDeclared crop, String pollen) {
    if (!crop.getPollenComponentId().equals(pollen)) {
      wrong.add(new ComponentsFinding.OtherPollen(crop.getPollenComponentId(), pollen));
    }
  }

  Optional<Crossing> crossing(Scheme scheme, String seedId) {
    Optional<Crossing> crossing =
        scheme.crossings().stream().filter(cross -> cross.seedId().equals(seedId)).findFirst();
    if (crossing.isEmpty()) {
      wrong.add(new ComponentsFinding.NoCross(seedId));
    }
    return crossing;
  }

  /** Checks every parent and returns the seeds that are right. */
  private Set<String> parentsAre(Predicate<Material> right, ComponentsFinding asked) {
    Set<String> seeds = new TreeSet<>();
    for (Edge edge : dossier.edgesIn()) {
      factIds.add(edge.factId());
      Optional<Material> material = materialOf(edge.parent());
      if (material.isEmpty()) {
        continue;
      }
      if (right.test(material.get())) {
        seeds.add(material.get().seedId());
      } else {
        wrong.add(new ComponentsFinding.WasSown(edge.parent(), seed(material.get()), asked));
      }
    }
    return seeds;
  }

  Optional<Material> materialOf(Subject parent) {
    Optional<Material> material = dossier.parent(parent).flatMap(Report.FromParent::material);
    if (material.isEmpty()) {
      owed.add(new Evidence.OriginOf(parent));
    }
    return material;
  }

  static ComponentsFinding.Seed seed(Material material) {
    return new ComponentsFinding.Seed(material.kind(), material.seedId(), material.category());
  }

  List<Verdict> verdicts(ComponentsFinding whenRight) {
    List<String> facts = List.copyOf(factIds);
    if (!wrong.isEmpty()) {
      List<Coded> each =
          wrong.stream()
              .distinct()
              .map(Statement::coded)
              .sorted(Comparator.comparing(Coded::toString))
              .toList();
      return List.of(
          Findings.of(Gate.COMPONENTS, facts, new ComponentsFinding.Wrong(each))
              .mustBeNone(each.size(), "wrong", new Advice.CorrectOrNotSo()));
    }
    if (!owed.isEmpty()) {
      return List.of(
          Findings.of(Gate.COMPONENTS, facts, new ComponentsFinding.NotKnown())
              .owed(
                  owed.stream()
                      .sorted(Comparator.comparing(Evidence::toString))
                      .toArray(Evidence[]::new)));
    }
    return List.of(Findings.of(Gate.COMPONENTS, facts, whenRight).mustBeNone(0, "wrong"));
  }
}
