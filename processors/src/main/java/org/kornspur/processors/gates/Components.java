package org.kornspur.processors.gates;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Predicate;
import org.kornspur.contract.Admixture;
import org.kornspur.contract.Blend;
import org.kornspur.contract.ComponentKind;
import org.kornspur.contract.FieldCropDeclared;
import org.kornspur.contract.LotMass;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.dossier.Material;
import org.kornspur.processors.dossier.Report;
import org.kornspur.processors.dossier.Report.Crossing;
import org.kornspur.processors.dossier.Report.Scheme;
import org.kornspur.processors.pedigree.Edge;
import org.kornspur.processors.standards.Rulebook;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.processors.verdict.Measured;
import org.kornspur.processors.verdict.Verdict;

/**
 * The lots that were sown or put together are the components that the breeder's crossing scheme
 * asks for. The measured value is the number of lots, or of declared components, that are not.
 *
 * <p>Council Directive 66/402/EEC, Annexes I and II: sufficient identity of the components. The
 * scheme itself is the breeder's.
 */
final class Components implements GateRule {

  @Override
  public Gate gate() {
    return Gate.COMPONENTS;
  }

  @Override
  public List<Verdict> judge(Dossier dossier, Rulebook rulebook) {
    return switch (dossier.subject().kind()) {
      case CROP -> dossier.crop().map(crop -> new Check(dossier).crop(crop)).orElse(List.of());
      case LOT -> new Check(dossier).lot();
      case SOURCE, HYBRID, ENTERPRISE -> List.of();
    };
  }

  /** One look at one dossier: gathers what is wrong and what is owed. */
  private static final class Check {
    private final Dossier dossier;
    private final List<String> wrong = new ArrayList<>();
    private final Set<String> owed = new TreeSet<>();
    private final Set<String> factIds = new TreeSet<>();

    Check(Dossier dossier) {
      this.dossier = dossier;
    }

    List<Verdict> crop(FieldCropDeclared crop) {
      factIds.add(crop.getHeader().getFactId());
      Optional<Scheme> scheme = dossier.scheme();
      if (scheme.isEmpty()) {
        owed.add("the master data of hybrid " + crop.getHybridId());
        return verdicts("");
      }
      factIds.add(scheme.get().factId());
      switch (crop.getRole()) {
        case STERILE_FEMALE -> sterileFemale(crop, scheme.get());
        case MAINTAINER -> alone(crop, scheme.get(), ComponentKind.MAINTAINER_LINE);
        case POLLINATOR -> alone(crop, scheme.get(), ComponentKind.RESTORER_POLLINATOR);
        case FERTILE_LINE -> alone(crop, scheme.get(), ComponentKind.FERTILE_LINE);
        case F1_MIXTURE -> mixture(crop, scheme.get());
      }
      return verdicts(
          "What was sown is what the crossing scheme of %s asks for".formatted(crop.getHybridId()));
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
              "was sown",
              material ->
                  material.kind() == Material.Kind.COMPONENT
                      && (material.seedId().equals(female) || material.seedId().equals(pollen)),
              "%s (female) or %s (pollen parent)".formatted(female, pollen));
      if (!sown.contains(female)) {
        owed.add("the sowing of the female, seed of " + female);
      }
      if (!sown.contains(pollen)) {
        owed.add("the sowing of the pollen parent, seed of " + pollen);
      }
    }

    private void alone(FieldCropDeclared crop, Scheme scheme, ComponentKind kind) {
      kindIs(crop, scheme, Set.of(kind));
      String line = crop.getSeedComponentId();
      Set<String> sown =
          parentsAre(
              "was sown",
              material ->
                  material.kind() == Material.Kind.COMPONENT && material.seedId().equals(line),
              line);
      if (sown.isEmpty()) {
        owed.add("the sowing of seed of " + line);
      }
    }

    private void mixture(FieldCropDeclared crop, Scheme scheme) {
      String hybrid = scheme.hybridId();
      if (!crop.getSeedComponentId().equals(hybrid)) {
        wrong.add(
            "the crop is declared to give %s, where a mixture gives F1 seed of %s"
                .formatted(crop.getSeedComponentId(), hybrid));
      }
      crossing(scheme, hybrid).ifPresent(crossing -> pollenIs(crop, crossing.pollenId()));
      Set<String> sown =
          parentsAre(
              "was sown",
              material ->
                  material.kind() == Material.Kind.TECHNICAL_MIXTURE
                      && material.seedId().equals(hybrid),
              "the technical mixture of " + hybrid);
      if (sown.isEmpty()) {
        owed.add("the sowing of the technical mixture of " + hybrid);
      }
    }

    List<Verdict> lot() {
      List<Verdict> verdicts = new ArrayList<>();
      List<Blend> blends =
          dossier.facts(Blend.class).stream()
              .filter(blend -> Subject.lot(blend.getBlendLotId()).equals(dossier.subject()))
              .toList();
      for (Blend blend : blends) {
        verdicts.addAll(blend(blend));
      }
      return verdicts.isEmpty() ? sameMaterial() : verdicts;
    }

    private List<Verdict> blend(Blend blend) {
      factIds.add(blend.getHeader().getFactId());
      Optional<Scheme> scheme = dossier.scheme();
      if (scheme.isEmpty()) {
        owed.add("the master data of hybrid " + blend.getHybridId());
        return verdicts("");
      }
      factIds.add(scheme.get().factId());
      crossing(scheme.get(), blend.getHybridId())
          .ifPresent(
              crossing -> {
                each(blend.getFemales(), "female", crossing.femaleId());
                each(blend.getPollinators(), "pollinator", crossing.pollenId());
              });
      return verdicts("The mixture holds the female and the pollinator of " + blend.getHybridId());
    }

    private void each(List<LotMass> parts, String as, String componentId) {
      for (LotMass part : parts) {
        Subject lot = Subject.lot(part.getLotId());
        materialOf(lot)
            .filter(
                material ->
                    material.kind() != Material.Kind.COMPONENT
                        || !material.seedId().equals(componentId))
            .ifPresent(
                material ->
                    wrong.add(
                        "%s went in as %s and is %s, not %s"
                            .formatted(lot, as, described(material), componentId)));
      }
    }

    /** Seed that was cleaned, divided or put together is one material. */
    private List<Verdict> sameMaterial() {
      Set<String> openPollinated = openPollinatedLots();
      List<Edge> in =
          dossier.edgesIn().stream()
              .filter(edge -> edge.by() != FactType.HARVEST)
              .filter(edge -> !openPollinated.contains(edge.parent().id()))
              .toList();
      if (in.isEmpty()) {
        return List.of();
      }
      in.forEach(edge -> factIds.add(edge.factId()));
      Set<String> materials = new TreeSet<>();
      in.stream()
          .map(Edge::parent)
          .distinct()
          .forEach(parent -> materialOf(parent).map(Check::described).ifPresent(materials::add));
      if (materials.size() > 1) {
        wrong.add("different seed was put together: " + String.join(" and ", materials));
      }
      return verdicts("All seed that was put together is " + String.join("", materials));
    }

    private Set<String> openPollinatedLots() {
      Set<String> lots = new TreeSet<>();
      dossier.facts(Admixture.class).stream()
          .filter(admixture -> Subject.lot(admixture.getIntoLotId()).equals(dossier.subject()))
          .flatMap(admixture -> admixture.getOpenPollinatedLots().stream())
          .forEach(part -> lots.add(part.getLotId()));
      return lots;
    }

    private void kindIs(FieldCropDeclared crop, Scheme scheme, Set<ComponentKind> kinds) {
      ComponentKind kind = scheme.components().get(crop.getSeedComponentId());
      if (kind == null || !kinds.contains(kind)) {
        wrong.add(
            "the scheme has %s as %s, which no crop with the role %s gives"
                .formatted(
                    crop.getSeedComponentId(),
                    kind == null ? "no component of the hybrid" : kind,
                    crop.getRole()));
      }
    }

    private void pollenIs(FieldCropDeclared crop, String pollen) {
      if (!crop.getPollenComponentId().equals(pollen)) {
        wrong.add(
            "the crop is declared with the pollen of %s, where the scheme asks for %s"
                .formatted(crop.getPollenComponentId(), pollen));
      }
    }

    private Optional<Crossing> crossing(Scheme scheme, String seedId) {
      Optional<Crossing> crossing =
          scheme.crossings().stream().filter(cross -> cross.seedId().equals(seedId)).findFirst();
      if (crossing.isEmpty()) {
        wrong.add("the scheme has no cross that gives " + seedId);
      }
      return crossing;
    }

    /** Checks every parent and returns the seeds that are right. */
    private Set<String> parentsAre(String how, Predicate<Material> right, String asked) {
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
          wrong.add(
              "%s %s and is %s, not %s"
                  .formatted(edge.parent(), how, described(material.get()), asked));
        }
      }
      return seeds;
    }

    private Optional<Material> materialOf(Subject parent) {
      Optional<Material> material = dossier.parent(parent).flatMap(Report.FromParent::material);
      if (material.isEmpty()) {
        owed.add("the origin of " + parent);
      }
      return material;
    }

    private static String described(Material material) {
      String seed =
          switch (material.kind()) {
            case COMPONENT -> "component seed";
            case TECHNICAL_MIXTURE -> "technical mixture";
            case F1_SEED -> "F1 seed";
          };
      return "%s of %s (%s)".formatted(seed, material.seedId(), material.category());
    }

    private List<Verdict> verdicts(String whenRight) {
      List<String> facts = List.copyOf(factIds);
      if (!wrong.isEmpty()) {
        List<String> each = wrong.stream().distinct().sorted().toList();
        return List.of(
            new Verdict.NotMet(
                Gate.COMPONENTS,
                "",
                new Measured(each.size(), "wrong", -each.size(), Optional.empty()),
                Optional.empty(),
                facts,
                "Against the breeder's crossing scheme: %s. Correct the fact if it was recorded"
                        .formatted(String.join("; ", each))
                    + " wrongly; otherwise this seed is not what it is called."));
      }
      if (!owed.isEmpty()) {
        String what = String.join(", ", owed);
        return List.of(
            new Verdict.Owed(
                Gate.COMPONENTS,
                "",
                what,
                Optional.empty(),
                facts,
                "Whether the right components were used cannot be told yet. Record %s."
                    .formatted(what)));
      }
      return List.of(
          new Verdict.Met(
              Gate.COMPONENTS,
              "",
              new Measured(0, "wrong", 0, Optional.empty()),
              Optional.empty(),
              facts,
              whenRight + "."));
    }
  }
}
