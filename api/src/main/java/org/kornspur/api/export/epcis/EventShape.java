package org.kornspur.api.export.epcis;

import java.util.Optional;
import org.kornspur.api.export.identity.Vocabulary;
import org.kornspur.ingest.contract.FactType;

/**
 * What kind of event a fact type becomes: the part of an event that follows from the type alone, so
 * that events can be searched by it without making them.
 *
 * <p>Business steps and dispositions are words of the Core Business Vocabulary where it has one
 * that says the same, else URIs of our own.
 *
 * @param type of event
 * @param action for object events; a transformation has none
 * @param bizStep word of the vocabulary or URI
 * @param disposition word of the vocabulary; empty where a fact alone says nothing of the state
 */
public record EventShape(
    Type type, Optional<Action> action, String bizStep, Optional<String> disposition) {

  private static final String INSPECTING = "inspecting";

  /** Types of event that facts become. */
  public enum Type {
    OBJECT("ObjectEvent"),
    TRANSFORMATION("TransformationEvent");

    private final String word;

    Type(String word) {
      this.word = word;
    }

    /** The word in documents. */
    public String word() {
      return word;
    }
  }

  /** What became of the objects that an object event names. */
  public enum Action {
    ADD,
    OBSERVE
  }

  /**
   * The shape of a fact type. A new type of fact that moves no seed is an observation with a step
   * of its own: one line here is enough for it.
   */
  public static EventShape of(FactType type) {
    return switch (type) {
      case FIELD_CROP_DECLARED -> added("commissioning");
      case LOT_DECLARED -> added("creating_class_instance");
      case SOWING -> transformed(own("sowing"), "in_progress");
      case HARVEST -> transformed("creating_class_instance", "active");
      case CONDITIONING -> transformed(own("conditioning"), "active");
      case LOT_SPLIT -> transformed(own("splitting"), "active");
      case LOT_MERGE -> transformed(own("merging"), "active");
      case BLEND -> transformed(own("blending"), "active");
      case ADMIXTURE -> transformed(own("admixing"), "active");
      case SAMPLING -> observed("sampling");
      case FIELD_INSPECTION,
          STERILITY_CHECK,
          FLOWERING_SEEN,
          GERMINATION_TEST,
          PURITY_TEST,
          OTHER_SEED_DETERMINATION,
          MOISTURE_TEST,
          KERNEL_WEIGHT_TEST,
          BLEND_COMPOSITION,
          POST_CONTROL_RESULT ->
          observed(INSPECTING);
      case DISPATCH ->
          new EventShape(
              Type.OBJECT, Optional.of(Action.OBSERVE), "shipping", Optional.of("in_transit"));
      case POLLEN_SOURCE_SEEN -> observed(own("observing_pollen_source"));
      case ENTERPRISE_DECLARED, HYBRID_DECLARED -> observed(own("declaring"));
      case WITHDRAWAL -> observed(own("withdrawing"));
      case RELEASE -> decided(own("releasing"), "conformant");
      case SUSPENSION -> decided(own("suspending"), "unavailable");
      case CONDEMNATION -> decided(own("condemning"), "non_conformant");
      case DOWNGRADE -> observed(own("downgrading"));
      case REFUSED_ACT -> observed(own("refusing_act"));
    };
  }

  /** Whether certification rests on the paper behind it, as on that of an inspection or a test. */
  boolean certifies() {
    return bizStep.equals(INSPECTING);
  }

  private static String own(String word) {
    return Vocabulary.term(word);
  }

  private static EventShape added(String bizStep) {
    return new EventShape(Type.OBJECT, Optional.of(Action.ADD), bizStep, Optional.of("active"));
  }

  private static EventShape observed(String bizStep) {
    return new EventShape(Type.OBJECT, Optional.of(Action.OBSERVE), bizStep, Optional.empty());
  }

  private static EventShape decided(String bizStep, String disposition) {
    return new EventShape(
        Type.OBJECT, Optional.of(Action.OBSERVE), bizStep, Optional.of(disposition));
  }

  private static EventShape transformed(String bizStep, String disposition) {
    return new EventShape(Type.TRANSFORMATION, Optional.empty(), bizStep, Optional.of(disposition));
  }
}
