package org.kornspur.api.export.epcis;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.time.Instant;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.Optional;
import java.util.function.Function;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.api.export.identity.EventId;
import org.kornspur.api.export.identity.Identifiers;
import org.kornspur.api.export.identity.Vocabulary;
import org.kornspur.contract.Dispatch;
import org.kornspur.contract.FactHeader;
import org.kornspur.contract.FieldCropDeclared;
import org.kornspur.contract.Harvest;
import org.kornspur.contract.LotDeclared;
import org.kornspur.contract.Sampling;
import org.kornspur.contract.Sowing;
import org.kornspur.contract.Withdrawal;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.contract.SubjectsNamed;
import org.kornspur.ingest.json.AvroJson;
import org.kornspur.processors.balance.MassFlow;
import org.kornspur.processors.balance.MassFlow.Direction;
import org.kornspur.processors.dossier.Entry;

/**
 * Facts as events.
 *
 * <p>Lots are classes of which a mass is known, in kilograms; a crop is one object. What is sown
 * into a crop and what is harvested from it are inputs and outputs of one transformation, which
 * bears the crop's name. Event time is when it happened, record time when it was first written
 * down. The whole fact stands in the event, as an extension, so that the same fact can be read
 * back.
 *
 * <p>A fact that a later one corrects or takes back stays an event and bears an error declaration
 * that names the later one; the later one is an event of its own (EPCIS 2.0, section 7.4.1.2).
 */
public final class EpcisEvents {

  private static final JsonNodeFactory NODES = JsonNodeFactory.instance;

  private static final String UTC_OFFSET = "+00:00";
  private static final String OWNER = "owning_party";

  private final Identifiers ids;
  private final Function<String, Optional<SpecificRecord>> factById;

  private final ZoneId zone;
  private final Function<String, Optional<String>> holderOfLot;

  /**
   * @param ids how things are named outside
   * @param zone of the place where things happen
   * @param holderOfLot id of the enterprise that a lot belongs to; empty where it is not known
   * @param factById looks up facts that correct or take back others; may know no more than those
   */
  public EpcisEvents(
      Identifiers ids,
      ZoneId zone,
      Function<String, Optional<String>> holderOfLot,
      Function<String, Optional<SpecificRecord>> factById) {
    this.ids = ids;
    this.zone = zone;
    this.holderOfLot = holderOfLot;
    this.factById = factById;
  }

  /** The event of a fact. */
  public ObjectNode event(Entry entry) {
    SpecificRecord fact = entry.fact();
    FactHeader header = entry.header();
    EventShape shape = EventShape.of(FactType.of(fact));
    ObjectNode event = NODES.objectNode();
    event.put("type", shape.type().word());
    event.put("eventID", EventId.ofFact(header.getFactId()));
    event.put("eventTime", header.getHappenedAt().toString());
    event.put("eventTimeZoneOffset", offset(header.getHappenedAt()));
    event.put("recordTime", header.getRecordedAt().toString());
    shape.action().ifPresent(action -> event.put("action", action.name()));
    event.put("bizStep", shape.bizStep());
    shape.disposition().ifPresent(disposition -> event.put("disposition", disposition));
    addObjects(fact, shape, event);
    event.put(Vocabulary.shortTerm("recordedBy"), ids.person(header.getRecordedBy()));
    event.put(Vocabulary.shortTerm("sourceDocument"), header.getSourceDocument());
    entry.superseded().ifPresent(by -> event.set("errorDeclaration", errorDeclaration(fact, by)));
    event.set(Vocabulary.shortTerm("fact"), AvroJson.write(fact));
    return event;
  }

  /** The offset that held there and then (EPCIS 2.0, section 7.4.1.1). */
  private String offset(Instant time) {
    ZoneOffset offset = zone.getRules().getOffset(time);
    return offset.equals(ZoneOffset.UTC) ? UTC_OFFSET : offset.getId();
  }

  /** What is neither moved nor declared is observed. */
  private void addObjects(SpecificRecord fact, EventShape shape, ObjectNode event) {
    if (shape.type() == EventShape.Type.TRANSFORMATION) {
      transformation(fact, event);
    } else if (fact instanceof FieldCropDeclared crop) {
      event.putArray("epcList").add(ids.of(Subject.crop(crop.getCropId())));
      event.putObject("bizLocation").put("id", ids.field(crop.getFieldId()));
      masterData(
          event,
          crop.getHybridId(),
          crop.getSeedComponentId(),
          crop.getCategory().name(),
          crop.getRulebookId(),
          crop.getCropYear());
    } else if (fact instanceof LotDeclared lot) {
      event.set("quantityList", masses(fact, Direction.IN));
      masterData(
          event,
          lot.getHybridId(),
          lot.getComponentId(),
          lot.getCategory().name(),
          lot.getRulebookId(),
          lot.getCropYear());
      event
          .withObjectProperty("ilmd")
          .put(
              Vocabulary.shortTerm("enterprise"),
              ids.of(Subject.enterprise(lot.getEnterpriseId())));
    } else if (fact instanceof Dispatch dispatch) {
      event.set("quantityList", masses(fact, Direction.OUT));
      event.putObject("readPoint").put("id", ids.base());
      holderOfLot
          .apply(dispatch.getLotId())
          .ifPresent(
              holder ->
                  event
                      .putArray("sourceList")
                      .addObject()
                      .put("type", OWNER)
                      .put("source", ids.of(Subject.enterprise(holder))));
      event
          .putArray("destinationList")
          .addObject()
          .put("type", OWNER)
          .put("destination", ids.of(Subject.enterprise(dispatch.getCustomerId())));
    } else if (fact instanceof Withdrawal withdrawal) {
      event.putArray("epcList");
      event.put(Vocabulary.shortTerm("withdraws"), EventId.ofFact(withdrawal.getWithdrawnFactId()));
    } else {
      observe(fact, shape, event);
    }
    if (fact instanceof Sowing sowing) {
      atCrop(event, sowing.getCropId());
    } else if (fact instanceof Harvest harvest) {
      atCrop(event, harvest.getCropId());
    } else if (fact instanceof Sampling sampling) {
      event.put(Vocabulary.shortTerm("sample"), ids.sample(sampling.getSampleId()));
    }
    if (FactType.headerOf(fact).getCorrection() != null) {
      event.put(
          Vocabulary.shortTerm("corrects"),
          EventId.ofFact(FactType.headerOf(fact).getCorrection().getSupersedes()));
    }
  }

  /** An observation of whatever the fact names, with what was measured. */
  private void observe(SpecificRecord fact, EventShape shape, ObjectNode event) {
    ArrayNode objects = NODES.arrayNode();
    ArrayNode lots = NODES.arrayNode();
    for (Subject subject : SubjectsNamed.of(fact)) {
      if (subject.kind() == Subject.Kind.LOT) {
        lots.addObject().put("epcClass", ids.of(subject));
      } else {
        objects.add(ids.of(subject));
      }
    }
    if (!lots.isEmpty()) {
      event.set("quantityList", lots);
    }
    if (!objects.isEmpty() || lots.isEmpty()) {
      event.set("epcList", objects);
    }
    ArrayNode reports = Measurements.of(fact);
    if (!reports.isEmpty()) {
      ObjectNode element = event.putArray("sensorElementList").addObject();
      element.putObject("sensorMetadata").put("time", event.get("eventTime").textValue());
      element.set("sensorReport", reports);
    }
    if (shape.certifies()) {
      String document = ids.document(FactType.headerOf(fact).getSourceDocument());
      event.putArray("certificationInfo").add(document);
      event
          .putArray("bizTransactionList")
          .addObject()
          .put("type", "testres")
          .put("bizTransaction", document);
    }
  }

  private void transformation(SpecificRecord fact, ObjectNode event) {
    ArrayNode inputs = masses(fact, Direction.OUT);
    ArrayNode outputs = masses(fact, Direction.IN);
    if (!inputs.isEmpty()) {
      event.set("inputQuantityList", inputs);
    }
    if (!outputs.isEmpty()) {
      event.set("outputQuantityList", outputs);
    }
  }

  private void atCrop(ObjectNode event, String cropId) {
    String crop = ids.of(Subject.crop(cropId));
    event.put("transformationID", crop);
    event.putObject("readPoint").put("id", crop);
  }

  /** What the fact takes out of lots, or puts into them. */
  private ArrayNode masses(SpecificRecord fact, Direction direction) {
    ArrayNode list = NODES.arrayNode();
    MassFlow.of(fact).stream()
        .filter(flow -> flow.direction() == direction)
        .forEach(
            flow ->
                list.addObject()
                    .put("epcClass", ids.lot(flow.lotId()))
                    .put("quantity", flow.massKg())
                    .put("uom", Units.KILOGRAM));
    return list;
  }

  private void masterData(
      ObjectNode event,
      String hybridId,
      String componentId,
      String category,
      String rulebookId,
      int cropYear) {
    event
        .putObject("ilmd")
        .put(Vocabulary.shortTerm("hybrid"), ids.of(new Subject(Subject.Kind.HYBRID, hybridId)))
        .put(Vocabulary.shortTerm("component"), componentId)
        .put(Vocabulary.shortTerm("category"), category)
        .put(Vocabulary.shortTerm("rulebook"), rulebookId)
        .put(Vocabulary.shortTerm("cropYear"), cropYear);
  }

  /**
   * Where the later fact is not at hand, the declaration bears the record time of the wrong one: it
   * cannot have been declared before.
   */
  private ObjectNode errorDeclaration(SpecificRecord wrong, Entry.Superseded by) {
    Optional<SpecificRecord> later = factById.apply(by.byFactId());
    Instant declaredAt = FactType.headerOf(later.orElse(wrong)).getRecordedAt();
    boolean takenBack = later.filter(Withdrawal.class::isInstance).isPresent();
    ObjectNode declaration = NODES.objectNode();
    declaration.put("declarationTime", declaredAt.toString());
    declaration.put("reason", takenBack ? "did_not_occur" : "incorrect_data");
    declaration.putArray("correctiveEventIDs").add(EventId.ofFact(by.byFactId()));
    declaration.put(Vocabulary.shortTerm("reason"), by.reason());
    return declaration;
  }
}
