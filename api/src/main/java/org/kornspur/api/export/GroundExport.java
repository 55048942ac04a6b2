package org.kornspur.api.export;

import com.fasterxml.jackson.databind.node.ObjectNode;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.kornspur.api.export.geojson.GroundFeatures;
import org.kornspur.api.query.VisibleData;
import org.kornspur.api.readmodel.FactReadModel;
import org.kornspur.contract.FieldCropDeclared;
import org.kornspur.contract.PollenSourceSeen;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.dossier.Report.Neighbour;
import org.kornspur.processors.ground.InvalidOutline;
import org.kornspur.processors.ground.IsolationZone;
import org.kornspur.processors.ground.Outline;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.standing.GateVerdict;
import org.kornspur.standing.LotStanding;
import org.kornspur.standing.VerdictLimit;

/** Gathers crops with the ground around them, as far as the caller may see it. */
@ApplicationScoped
public class GroundExport {
  @Inject VisibleData data;
  @Inject FactReadModel facts;

  /** A crop, its isolation zone, and all that sheds foreign pollen around it. */
  ObjectNode ofCrop(Subject crop) {
    Dossier dossier = data.dossier(crop);
    List<ObjectNode> features = new ArrayList<>(features(dossier));
    dossier.neighbours().stream()
        .map(Neighbour::source)
        .filter(source -> source.kind() == Subject.Kind.CROP && data.sees(source))
        .forEach(source -> fieldCrop(data.dossier(source)).ifPresent(features::add));
    sightings(around(List.of(dossier))).map(GroundFeatures::pollenSource).forEach(features::add);
    return GroundFeatures.collection(features);
  }

  /** The crops of a year of harvest with their zones, and the sources that flower in that year. */
  ObjectNode ofYear(int cropYear) {
    List<Dossier> crops =
        data
            .matching(
                row ->
                    row.subject().kind() == Subject.Kind.CROP
                        && row.material().filter(of -> of.getCropYear() == cropYear).isPresent())
            .stream()
            .map(row -> data.dossier(row.subject()))
            .toList();
    List<ObjectNode> features = new ArrayList<>();
    crops.forEach(crop -> features.addAll(features(crop)));
    sightings(facts.ground().ofYears(cropYear, cropYear).stream().filter(GroundExport::isSource))
        .filter(seen -> seen.getCropYear() == cropYear)
        .map(GroundFeatures::pollenSource)
        .forEach(features::add);
    return GroundFeatures.collection(features);
  }

  private List<ObjectNode> features(Dossier crop) {
    List<ObjectNode> features = new ArrayList<>();
    fieldCrop(crop)
        .ifPresent(
            field -> {
              features.add(field);
              zone(crop).ifPresent(features::add);
            });
    return features;
  }

  private Optional<ObjectNode> fieldCrop(Dossier crop) {
    return crop.crop()
        .filter(data::sees)
        .map(
            declared ->
                GroundFeatures.fieldCrop(
                    declared,
                    data.standing(crop.subject()).map(standing -> standing.getState().name()),
                    crop.flowering()));
  }

  private Optional<ObjectNode> zone(Dossier crop) {
    FieldCropDeclared declared = crop.crop().orElseThrow();
    return data.standing(crop.subject())
        .flatMap(GroundExport::required)
        .flatMap(
            required ->
                drawn(declared, required.distanceM())
                    .map(zone -> GroundFeatures.isolationZone(declared, zone, required)));
  }

  /** As the crop was judged by the rulebook of its production. */
  private static Optional<GroundFeatures.Required> required(LotStanding standing) {
    return standing.getVerdicts().stream()
        .filter(verdict -> verdict.getGate().equals(Gate.ISOLATION.name()))
        .map(GateVerdict::getLimit)
        .filter(limit -> limit != null && limit.getValue() > 0)
        .map(GroundExport::required)
        .findFirst();
  }

  private static GroundFeatures.Required required(VerdictLimit limit) {
    return new GroundFeatures.Required(limit.getValue(), limit.getRulebookId(), limit.getSection());
  }

  /** A correction may have spoilt what could be drawn before. */
  private static Optional<IsolationZone> drawn(FieldCropDeclared crop, double distanceM) {
    try {
      return Optional.of(IsolationZone.around(Outline.of(crop.getOutline()), distanceM));
    } catch (InvalidOutline spoilt) {
      return Optional.empty();
    }
  }

  private static Stream<Subject> around(List<Dossier> crops) {
    return crops.stream()
        .flatMap(crop -> crop.neighbours().stream())
        .map(Neighbour::source)
        .filter(GroundExport::isSource);
  }

  private static boolean isSource(Subject subject) {
    return subject.kind() == Subject.Kind.SOURCE;
  }

  /** What counts of each source, once. */
  private Stream<PollenSourceSeen> sightings(Stream<Subject> sources) {
    Map<String, PollenSourceSeen> byId = new TreeMap<>();
    sources
        .distinct()
        .flatMap(source -> data.countingFacts(source).stream())
        .filter(data::sees)
        .filter(PollenSourceSeen.class::isInstance)
        .map(PollenSourceSeen.class::cast)
        .forEach(seen -> byId.put(FactType.idOf(seen), seen));
    return byId.values().stream();
  }
}
