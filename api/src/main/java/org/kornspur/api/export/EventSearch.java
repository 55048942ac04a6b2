package org.kornspur.api.export;

import com.fasterxml.jackson.databind.node.ObjectNode;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.function.Function;
import java.util.stream.Stream;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.api.export.EventIndex.Found;
import org.kornspur.api.export.EventIndex.Place;
import org.kornspur.api.export.EventIndex.Position;
import org.kornspur.api.export.epcis.EpcisEvents;
import org.kornspur.api.export.epcis.EventQuery;
import org.kornspur.api.export.identity.EventId;
import org.kornspur.api.export.identity.Identifiers;
import org.kornspur.api.kafka.EngineSettings;
import org.kornspur.api.kafka.ProcessorsClient;
import org.kornspur.api.query.VisibleData;
import org.kornspur.api.security.visibility.CursorCipher;
import org.kornspur.api.security.visibility.CursorCipher.Use;
import org.kornspur.contract.FactHeader;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.contract.SubjectsNamed;
import org.kornspur.processors.dossier.Entry;
import org.kornspur.processors.stream.RegisterEntry;

/** Finds events: all by time, or those of a lot or crop by its dossier. */
@ApplicationScoped
public class EventSearch {

  /** Passes over the index for one page, where most of what is found is not the caller's to see. */
  private static final int MOST_PASSES = 20;

  /** Rows of a pass where most may be hidden; so far a page looks ahead in any case. */
  private static final int ROWS_OF_A_PASS = 500;

  private static final Comparator<Entry> BY_POSITION = Comparator.comparing(EventSearch::position);

  @Inject ProcessorsClient processors;
  @Inject EventLog log;
  @Inject SiteIdentifiers site;
  @Inject VisibleData data;
  @Inject CursorCipher cursors;
  @Inject EngineSettings settings;

  /**
   * A page of events, by event time.
   *
   * @param next where the next page begins; empty where nothing follows
   */
  record Page(List<ObjectNode> events, Optional<Position> next) {}

  /** The events that match, after a position. */
  Page find(EventQuery query, Position after, int perPage) {
    return query.matches().isEmpty()
        ? findByTime(query, after, perPage)
        : findByName(query, after, perPage);
  }

  Optional<ObjectNode> event(UUID eventId) {
    return log.fact(eventId)
        .filter(data::sees)
        .flatMap(this::entry)
        .map(entry -> events(fact -> Optional.empty()).event(entry));
  }

  /** How facts become events here; what corrects others is looked up in the log. */
  EpcisEvents events(Function<String, Optional<SpecificRecord>> near) {
    return new EpcisEvents(
        site.identifiers(),
        ZoneId.systemDefault(),
        site::holderOfLot,
        factId -> near.apply(factId).or(() -> log.fact(EventId.uuidOfFact(factId))));
  }

  /** Says that a page follows only where an event follows that the caller sees. */
  private Page findByTime(EventQuery query, Position after, int perPage) {
    EpcisEvents shaper = events(fact -> Optional.empty());
    int most = data.isWhole() ? perPage + 1 : Math.max(perPage + 1, ROWS_OF_A_PASS);
    List<ObjectNode> events = new ArrayList<>();
    Position at = after;
    Position last = after;
    for (int pass = 0; pass < MOST_PASSES; pass++) {
      List<Found> rows = log.find(query, at, most);
      Map<Place, SpecificRecord> facts = log.read(rows.stream().map(Found::place).toList());
      for (Found row : rows) {
        at = row.position();
        Optional<Entry> entry =
            Optional.of(facts.get(row.place())).filter(data::sees).flatMap(this::entry);
        if (entry.isPresent()) {
          if (events.size() == perPage) {
            return new Page(events, Optional.of(last));
          }
          events.add(shaper.event(entry.get()));
          last = at;
        }
      }
      if (rows.size() < most) {
        return new Page(events, Optional.empty());
      }
    }
    return new Page(events, Optional.of(at));
  }

  private Page findByName(EventQuery query, Position after, int perPage) {
    Map<String, Entry> candidates = new LinkedHashMap<>();
    query.matches().get(0).names().stream()
        .flatMap(name -> site.identifiers().subject(name).stream())
        .filter(data::sees)
        .flatMap(subject -> processors.entries(subject).stream())
        .forEach(entry -> candidates.put(entry.header().getFactId(), entry));
    Set<FactType> types = query.factTypes();
    EpcisEvents shaper = events(near(candidates.values()));
    List<ObjectNode> events = new ArrayList<>();
    Position at = after;
    for (Entry entry : candidates.values().stream().sorted(BY_POSITION).toList()) {
      if (!types.contains(FactType.of(entry.fact()))
          || position(entry).compareTo(after) <= 0
          || !holds(query, entry)
          || !data.sees(entry.fact())) {
        continue;
      }
      ObjectNode event = shaper.event(entry);
      if (query.names(event)) {
        if (events.size() == perPage) {
          return new Page(events, Optional.of(at));
        }
        events.add(event);
        at = position(entry);
      }
    }
    return new Page(events, Optional.empty());
  }

  /** Names as they were asked for, and as we write them. */
  Set<String> namesOf(Stream<String> asked) {
    Identifiers ids = site.identifiers();
    Set<String> names = new LinkedHashSet<>();
    asked.forEach(
        name -> {
          names.add(name);
          ids.subject(name).map(ids::of).ifPresent(names::add);
        });
    return names;
  }

  static Function<String, Optional<SpecificRecord>> near(Iterable<Entry> entries) {
    Map<String, SpecificRecord> byId = new HashMap<>();
    entries.forEach(entry -> byId.put(entry.header().getFactId(), entry.fact()));
    return factId -> Optional.ofNullable(byId.get(factId));
  }

  private static boolean holds(EventQuery query, Entry entry) {
    FactHeader header = entry.header();
    return query.holdsMillis(
        header.getHappenedAt().toEpochMilli(), header.getRecordedAt().toEpochMilli());
  }

  private static Position position(Entry entry) {
    return new Position(
        entry.header().getHappenedAt().toEpochMilli(),
        EventIndex.key(EventId.uuidOfFact(entry.header().getFactId())));
  }

  /** What the log holds and the processors refused, or have not read yet, is no event. */
  private Optional<Entry> entry(SpecificRecord fact) {
    return processors
        .registered(FactType.idOf(fact))
        .filter(known -> known.fingerprint().isPresent())
        .map(
            known ->
                new Entry(
                    fact,
                    known.superseded(
                        fact,
                        this::isAct,
                        by -> isWithdrawn(by) || isOfOtherSubject(by, fact),
                        settings.trustTopicProducers())));
  }

  /** A correction of another lot or crop has no effect, by the rule of the dossiers. */
  private boolean isOfOtherSubject(String factId, SpecificRecord corrected) {
    Set<Subject> own = SubjectsNamed.own(corrected);
    return own.size() == 1
        && processors
            .registered(factId)
            .map(RegisterEntry::subjects)
            .filter(subjects -> !subjects.isEmpty()) // a withdrawal names none
            .filter(subjects -> !subjects.contains(own.iterator().next().toString()))
            .isPresent();
  }

  private boolean isWithdrawn(String factId) {
    return processors
        .registered(factId)
        .filter(known -> known.isWithdrawn(settings.trustTopicProducers()))
        .isPresent();
  }

  private boolean isAct(String factId) {
    return log.fact(EventId.uuidOfFact(factId)).filter(by -> FactType.of(by).isAct()).isPresent();
  }

  /** Where a page ends, as the caller is told it. */
  String mark(Position end) {
    return cursors.told(data.visibility(), Use.EVENT_PAGE, EventParameters.text(end));
  }

  /** The place that a mark of the caller's stands for; empty where it is none. */
  Optional<String> placeOf(String mark) {
    return cursors.read(data.visibility(), Use.EVENT_PAGE, mark);
  }

  /** Every fact of a subject that the caller may see, superseded ones too. */
  List<Entry> history(Subject subject) {
    return processors.entries(subject).stream().filter(entry -> data.sees(entry.fact())).toList();
  }
}
