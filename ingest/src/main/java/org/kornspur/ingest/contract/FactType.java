package org.kornspur.ingest.contract;

import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.Arrays;
import java.util.Collection;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.apache.avro.Schema;
import org.apache.avro.specific.SpecificData;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.contract.Admixture;
import org.kornspur.contract.Blend;
import org.kornspur.contract.BlendComposition;
import org.kornspur.contract.Condemnation;
import org.kornspur.contract.Conditioning;
import org.kornspur.contract.Dispatch;
import org.kornspur.contract.Downgrade;
import org.kornspur.contract.EnterpriseDeclared;
import org.kornspur.contract.FactHeader;
import org.kornspur.contract.FieldCropDeclared;
import org.kornspur.contract.FieldInspection;
import org.kornspur.contract.FloweringSeen;
import org.kornspur.contract.GerminationTest;
import org.kornspur.contract.Harvest;
import org.kornspur.contract.HybridDeclared;
import org.kornspur.contract.KernelWeightTest;
import org.kornspur.contract.LotDeclared;
import org.kornspur.contract.LotMerge;
import org.kornspur.contract.LotSplit;
import org.kornspur.contract.MoistureTest;
import org.kornspur.contract.OtherSeedDetermination;
import org.kornspur.contract.PollenSourceSeen;
import org.kornspur.contract.PostControlResult;
import org.kornspur.contract.PurityTest;
import org.kornspur.contract.RefusedAct;
import org.kornspur.contract.Release;
import org.kornspur.contract.Sampling;
import org.kornspur.contract.Sowing;
import org.kornspur.contract.SterilityCheck;
import org.kornspur.contract.Suspension;
import org.kornspur.contract.Withdrawal;

/** Every type of fact that the contract knows, each with its generated class. */
public enum FactType {
  ENTERPRISE_DECLARED(EnterpriseDeclared.class),
  HYBRID_DECLARED(HybridDeclared.class),
  FIELD_CROP_DECLARED(FieldCropDeclared.class),
  LOT_DECLARED(LotDeclared.class),
  SOWING(Sowing.class, Movement.SOWN),
  POLLEN_SOURCE_SEEN(PollenSourceSeen.class),
  FIELD_INSPECTION(FieldInspection.class),
  STERILITY_CHECK(SterilityCheck.class),
  FLOWERING_SEEN(FloweringSeen.class),
  HARVEST(Harvest.class, Movement.HARVESTED),
  CONDITIONING(Conditioning.class, Movement.CONDITIONED),
  LOT_SPLIT(LotSplit.class, Movement.REGROUPED),
  LOT_MERGE(LotMerge.class, Movement.REGROUPED),
  BLEND(Blend.class, Movement.MIXED),
  ADMIXTURE(Admixture.class, Movement.MIXED),
  SAMPLING(Sampling.class),
  GERMINATION_TEST(GerminationTest.class),
  PURITY_TEST(PurityTest.class),
  OTHER_SEED_DETERMINATION(OtherSeedDetermination.class),
  MOISTURE_TEST(MoistureTest.class),
  KERNEL_WEIGHT_TEST(KernelWeightTest.class),
  BLEND_COMPOSITION(BlendComposition.class),
  POST_CONTROL_RESULT(PostControlResult.class),
  DISPATCH(Dispatch.class, Movement.HANDED_OVER),
  WITHDRAWAL(Withdrawal.class),
  RELEASE(Release.class),
  SUSPENSION(Suspension.class),
  CONDEMNATION(Condemnation.class),
  DOWNGRADE(Downgrade.class),
  REFUSED_ACT(RefusedAct.class);

  private static final Set<FactType> ACTS =
      EnumSet.of(RELEASE, SUSPENSION, CONDEMNATION, DOWNGRADE, REFUSED_ACT);

  private static final Map<String, FactType> BY_SCHEMA =
      Arrays.stream(values())
          .collect(Collectors.toMap(type -> type.schema().getFullName(), Function.identity()));

  private final Class<? extends SpecificRecord> recordClass;
  private final Optional<Movement> movement;

  FactType(Class<? extends SpecificRecord> recordClass) {
    this.recordClass = recordClass;
    this.movement = Optional.empty();
  }

  FactType(Class<? extends SpecificRecord> recordClass, Movement movement) {
    this.recordClass = recordClass;
    this.movement = Optional.of(movement);
  }

  /** The generated class of this type. */
  public Class<? extends SpecificRecord> recordClass() {
    return recordClass;
  }

  /** The schema that this version of the contract writes. */
  public Schema schema() {
    return SpecificData.get().getSchema(recordClass);
  }

  /** The name that people and files use: the record name, as in {@code GerminationTest}. */
  public String contractName() {
    return recordClass.getSimpleName();
  }

  /**
   * Whether it is the act of a person, or the record that one was refused: signed by the server,
   * and never taken in from files or senders.
   */
  public boolean isAct() {
    return ACTS.contains(this);
  }

  /** How a fact of this type moves seed; empty where it moves none. */
  public Optional<Movement> movement() {
    return movement;
  }

  /** Whether a fact of this type moves seed in one of these ways. */
  public boolean moves(Movement... ways) {
    return movement.filter(List.of(ways)::contains).isPresent();
  }

  /** Whether a fact of this type moves seed from lots into lots of the same harvest. */
  public boolean keepsHarvest() {
    return moves(Movement.CONDITIONED, Movement.REGROUPED);
  }

  /** The type with this record name, without name space. */
  public static Optional<FactType> named(String contractName) {
    return Arrays.stream(values())
        .filter(type -> type.contractName().equals(contractName))
        .findFirst();
  }

  /** The type of a schema, by full name; empty for a record that is no fact. */
  public static Optional<FactType> of(Schema schema) {
    return Optional.ofNullable(BY_SCHEMA.get(schema.getFullName()));
  }

  /**
   * The type of a fact.
   *
   * @throws IllegalArgumentException if the record is no fact of this contract
   */
  public static FactType of(SpecificRecord fact) {
    return of(fact.getSchema())
        .orElseThrow(
            () ->
                new IllegalArgumentException(
                    fact.getSchema().getFullName() + " is no fact type of this contract"));
  }

  /** The head that every fact carries. */
  public static FactHeader headerOf(SpecificRecord fact) {
    return (FactHeader) fact.get(fact.getSchema().getField("header").pos());
  }

  /** What a fact says in a field that its type may lack; empty where it says nothing. */
  public static Optional<String> text(SpecificRecord fact, String field) {
    return Optional.ofNullable(fact.getSchema().getField(field))
        .map(found -> fact.get(found.pos()))
        .map(Object::toString);
  }

  /** The id of a fact. */
  public static String idOf(SpecificRecord fact) {
    return headerOf(fact).getFactId();
  }

  /** The ids of facts, in their order. */
  public static List<String> idsOf(Collection<? extends SpecificRecord> facts) {
    return facts.stream().map(FactType::idOf).toList();
  }

  /** Day on which it happened, in UTC. */
  public static LocalDate dayOf(SpecificRecord fact) {
    return LocalDate.ofInstant(headerOf(fact).getHappenedAt(), ZoneOffset.UTC);
  }
}
