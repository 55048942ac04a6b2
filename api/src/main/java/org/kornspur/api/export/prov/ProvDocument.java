package org.kornspur.api.export.prov;

import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.util.Collection;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.SortedSet;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.api.export.identity.Vocabulary;
import org.kornspur.contract.Dispatch;
import org.kornspur.contract.FactHeader;
import org.kornspur.contract.FieldCropDeclared;
import org.kornspur.contract.LotDeclared;
import org.kornspur.contract.Withdrawal;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.contract.SubjectsNamed;
import org.kornspur.processors.dossier.Entry;
import org.kornspur.processors.pedigree.Edge;
import org.kornspur.processors.pedigree.Edges;

/**
 * Facts as provenance: lots, crops and the records themselves are entities, what was done is an
 * activity, those who recorded it and the enterprises are agents.
 *
 * <p>What a superseded fact says did not happen so; no activity follows from it. Its record stays,
 * invalidated by the recording of the one that took its place, which is a revision of it.
 *
 * <p>Source: W3C Recommendation "PROV-DM: The PROV Data Model" (2013); W3C Member Submission "The
 * PROV-JSON Serialization" (2013).
 */
public final class ProvDocument {

  private static final JsonNodeFactory NODES = JsonNodeFactory.instance;

  private final ObjectNode document = NODES.objectNode();
  private final Set<String> recordIds = new HashSet<>();

  private ProvDocument() {}

  /**
   * The provenance in a set of facts.
   *
   * @param base where the pages are, without a slash at the end
   */
  public static ObjectNode of(Collection<Entry> entries, String base) {
    ProvDocument prov = new ProvDocument();
    ObjectNode prefixes = prov.document.putObject("prefix");
    prefixes.put(Vocabulary.PREFIX, Vocabulary.NAMESPACE);
    for (Kind kind : Kind.values()) {
      prefixes.put(kind.prefix, base + "/" + kind.folder + "/");
    }
    entries.forEach(entry -> prov.recordIds.add(entry.header().getFactId()));
    entries.forEach(prov::add);
    return prov.document;
  }

  private enum Kind {
    LOT("lot", "lots"),
    CROP("crop", "crops"),
    SOURCE("source", "pollen-sources"),
    HYBRID("hybrid", "hybrids"),
    ENTERPRISE("enterprise", "enterprises"),
    PERSON("person", "people"),
    RECORD("record", "records"),
    ACTIVITY("activity", "activities"),
    RECORDING("recording", "recordings");

    private final String prefix;
    private final String folder;

    Kind(String prefix, String folder) {
      this.prefix = prefix;
      this.folder = folder;
    }

    private String named(String id) {
      return prefix + ":" + URLEncoder.encode(id, StandardCharsets.UTF_8).replace("+", "%20");
    }
  }

  private void add(Entry entry) {
    FactHeader header = entry.header();
    String record = Kind.RECORD.named(header.getFactId());
    String recording = Kind.RECORDING.named(header.getFactId());
    String person = Kind.PERSON.named(header.getRecordedBy());
    String type = FactType.of(entry.fact()).contractName();
    in("agent", person).put("kornspur:personId", header.getRecordedBy());
    in("entity", record)
        .<ObjectNode>set("prov:type", qualifiedName(Vocabulary.shortTerm("Record")))
        .put("kornspur:factType", type)
        .put("kornspur:sourceDocument", header.getSourceDocument());
    in("activity", recording)
        .put("prov:startTime", header.getRecordedAt().toString())
        .put("prov:endTime", header.getRecordedAt().toString());
    relate("wasGeneratedBy", "gen", header.getFactId())
        .put("prov:entity", record)
        .put("prov:activity", recording)
        .put("prov:time", header.getRecordedAt().toString());
    relate("wasAssociatedWith", "assoc", header.getFactId())
        .put("prov:activity", recording)
        .put("prov:agent", person);
    relate("wasAttributedTo", "attr", header.getFactId())
        .put("prov:entity", record)
        .put("prov:agent", person);
    if (entry.superseded().isPresent()) {
      addSuperseded(entry, record);
    } else {
      addActivity(entry.fact(), header, record);
    }
  }

  private void addSuperseded(Entry entry, String record) {
    Entry.Superseded by = entry.superseded().orElseThrow();
    if (!recordIds.contains(by.byFactId())) {
      in("entity", Kind.RECORD.named(by.byFactId()));
      in("activity", Kind.RECORDING.named(by.byFactId()));
    }
    String factId = entry.header().getFactId();
    relate("wasInvalidatedBy", "inv", factId)
        .put("prov:entity", record)
        .put("prov:activity", Kind.RECORDING.named(by.byFactId()))
        .put("kornspur:reason", by.reason());
    relate("wasDerivedFrom", "rev", factId)
        .put("prov:generatedEntity", Kind.RECORD.named(by.byFactId()))
        .put("prov:usedEntity", record)
        .set("prov:type", qualifiedName("prov:Revision"));
  }

  private void addActivity(SpecificRecord fact, FactHeader header, String record) {
    if (fact instanceof Withdrawal) {
      return;
    }
    String factId = header.getFactId();
    String activity = Kind.ACTIVITY.named(factId);
    String time = header.getHappenedAt().toString();
    in("activity", activity)
        .<ObjectNode>set(
            "prov:type", qualifiedName(Vocabulary.shortTerm(FactType.of(fact).contractName())))
        .put("prov:startTime", time)
        .put("prov:endTime", time);
    relate("wasInfluencedBy", "says", factId)
        .put("prov:influencee", record)
        .put("prov:influencer", activity);
    List<Edge> edges = Edges.of(fact);
    SortedSet<Subject> parents = subjects(edges.stream().map(Edge::parent).toList());
    SortedSet<Subject> children = subjects(edges.stream().map(Edge::child).toList());
    for (Subject subject : SubjectsNamed.of(fact)) {
      String name = entity(subject);
      if (!children.contains(subject)) {
        relate("used", "used", factId + "/" + subject)
            .put("prov:activity", activity)
            .put("prov:entity", name)
            .put("prov:time", time);
      }
    }
    for (Subject child : children) {
      if (child.kind() != Subject.Kind.ENTERPRISE) {
        relate("wasGeneratedBy", "gen", factId + "/" + child)
            .put("prov:entity", entity(child))
            .put("prov:activity", activity)
            .put("prov:time", time);
      }
    }
    for (Edge edge : edges) {
      if (edge.child().kind() != Subject.Kind.ENTERPRISE) {
        relate("wasDerivedFrom", "der", factId + "/" + edge.parent() + "/" + edge.child())
            .put("prov:generatedEntity", entity(edge.child()))
            .put("prov:usedEntity", entity(edge.parent()))
            .put("prov:activity", activity)
            .put("kornspur:massKg", edge.massKg());
      }
    }
    if (parents.isEmpty()) {
      addOrigin(fact);
    }
    addEnterprise(fact, activity, factId);
  }

  private void addOrigin(SpecificRecord fact) {
    if (fact instanceof LotDeclared lot) {
      holder(Subject.lot(lot.getLotId()), lot.getEnterpriseId());
    } else if (fact instanceof FieldCropDeclared crop) {
      holder(Subject.crop(crop.getCropId()), crop.getEnterpriseId());
    }
  }

  private void holder(Subject subject, String enterpriseId) {
    relate("wasAttributedTo", "attr", subject + "/" + enterpriseId)
        .put("prov:entity", entity(subject))
        .put("prov:agent", organization(enterpriseId));
  }

  private void addEnterprise(SpecificRecord fact, String activity, String factId) {
    if (fact instanceof Dispatch dispatch) {
      relate("wasAssociatedWith", "assoc", factId + "/" + dispatch.getCustomerId())
          .put("prov:activity", activity)
          .put("prov:agent", organization(dispatch.getCustomerId()))
          .set("prov:role", qualifiedName(Vocabulary.shortTerm("customer")));
      return;
    }
    laboratory(fact)
        .ifPresent(
            laboratoryId ->
                relate("wasAssociatedWith", "assoc", factId + "/" + laboratoryId)
                    .put("prov:activity", activity)
                    .put("prov:agent", organization(laboratoryId))
                    .set("prov:role", qualifiedName(Vocabulary.shortTerm("laboratory"))));
  }

  /** The laboratory that a fact names; a sampling need not name one. */
  private static Optional<String> laboratory(SpecificRecord fact) {
    return FactType.text(fact, "laboratoryId");
  }

  private String organization(String enterpriseId) {
    String name = Kind.ENTERPRISE.named(enterpriseId);
    in("agent", name).set("prov:type", qualifiedName("prov:Organization"));
    return name;
  }

  private String entity(Subject subject) {
    Kind kind =
        switch (subject.kind()) {
          case LOT -> Kind.LOT;
          case CROP -> Kind.CROP;
          case SOURCE -> Kind.SOURCE;
          case HYBRID -> Kind.HYBRID;
          case ENTERPRISE -> Kind.ENTERPRISE;
        };
    String name = kind.named(subject.id());
    in("entity", name)
        .<ObjectNode>set("prov:type", qualifiedName(Vocabulary.shortTerm(subject.kind().word())))
        .put("prov:label", subject.id());
    return name;
  }

  /** A value that is a name and no text (PROV-N, section 3.7.3; PROV-JSON, section 2.2). */
  private static ObjectNode qualifiedName(String name) {
    return NODES.objectNode().put("$", name).put("type", "prov:QUALIFIED_NAME");
  }

  private static SortedSet<Subject> subjects(List<Subject> subjects) {
    return subjects.stream().collect(Collectors.toCollection(TreeSet::new));
  }

  private ObjectNode in(String section, String name) {
    return document.withObjectProperty(section).withObjectProperty(name);
  }

  /** Relations are named only within the document. */
  private ObjectNode relate(String section, String kind, String key) {
    return in(section, "_:" + kind + "-" + URLEncoder.encode(key, StandardCharsets.UTF_8));
  }
}
