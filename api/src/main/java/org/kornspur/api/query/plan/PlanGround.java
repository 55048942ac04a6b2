package org.kornspur.api.query.plan;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.kornspur.api.kafka.ProcessorsClient;
import org.kornspur.api.kafka.RulesInForce;
import org.kornspur.api.readmodel.FactReadModel;
import org.kornspur.contract.FieldCropDeclared;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.dossier.Entry;
import org.kornspur.processors.ground.InvalidOutline;
import org.kornspur.processors.ground.Outline;
import org.kornspur.processors.judging.Plots;
import org.kornspur.processors.plan.field.FieldName;
import org.kornspur.processors.plan.field.KnownField;
import org.kornspur.processors.plan.field.RyeStand;
import org.kornspur.processors.plan.field.RyeStand.SeedCropRules;
import org.kornspur.processors.standards.Rulebooks;

/**
 * The fields and the rye on record. It sees all of them, whoever asks: plans are read by who sees
 * everything, and of a caution that a grower gets, {@link ApprovedFields} tells no more than
 * distances.
 */
@ApplicationScoped
public class PlanGround {
  @Inject FactReadModel facts;
  @Inject ProcessorsClient processors;
  @Inject RulesInForce rules;

  /** Every field that can be drawn. */
  public List<KnownField> fields() {
    return facts.ground().fields().stream().flatMap(name -> field(name).stream()).toList();
  }

  /** A field as the latest crop on it was declared, whether that still counts or not. */
  public Optional<KnownField> field(FieldName name) {
    return facts.ground().cropsOn(name).stream()
        .flatMap(crop -> processors.entries(crop).stream())
        .map(Entry::fact)
        .filter(FieldCropDeclared.class::isInstance)
        .map(FieldCropDeclared.class::cast)
        .filter(crop -> nameOf(crop).equals(name))
        .max(Comparator.comparingInt(FieldCropDeclared::getCropYear))
        .flatMap(crop -> outline(crop).map(outline -> KnownField.of(name, outline)));
  }

  static FieldName nameOf(FieldCropDeclared crop) {
    return new FieldName(crop.getEnterpriseId(), crop.getFieldId());
  }

  private static Optional<Outline> outline(FieldCropDeclared crop) {
    try {
      return Optional.of(Outline.of(crop.getOutline()));
    } catch (InvalidOutline spoilt) {
      return Optional.empty(); // a correction may have spoilt what could be drawn before
    }
  }

  /** The rye of a year, and of the years before that keep seed crops from the same ground. */
  public List<RyeStand> known(int year) {
    return facts.ground().ofYears(year - Rulebooks.MOST_YEARS_BACK, year).stream()
        .flatMap(this::stands)
        .toList();
  }

  private Stream<RyeStand> stands(Subject subject) {
    return stands(dossier(subject));
  }

  /** A crop or source as the ground is told of it, with all that is not settled. */
  Stream<RyeStand> stands(Dossier dossier) {
    Optional<SeedCropRules> seedCrop =
        dossier
            .crop()
            .flatMap(
                declared ->
                    rules
                        .rulebooks()
                        .find(declared.getRulebookId())
                        .map(book -> new SeedCropRules(declared, book)));
    return Plots.ofWhatCanBePlaced(dossier).stream()
        .flatMap(plot -> plot.reports().stream())
        .map(plot -> RyeStand.known(plot, seedCrop));
  }

  private Dossier dossier(Subject subject) {
    return new Dossier(subject, processors.entries(subject), List.of());
  }
}
