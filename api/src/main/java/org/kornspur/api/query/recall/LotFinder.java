package org.kornspur.api.query.recall;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.kornspur.api.kafka.ProcessorsClient;
import org.kornspur.api.query.VisibleData;
import org.kornspur.api.readmodel.FactReadModel;
import org.kornspur.api.readmodel.LabelIndex;
import org.kornspur.contract.Dispatch;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.dossier.Entry;

/** Finds lots and crops by a label number, an id, or the id of a fact. */
@ApplicationScoped
public class LotFinder {
  @Inject ProcessorsClient processors;
  @Inject VisibleData data;
  @Inject FactReadModel facts;

  /** By what a subject was found. */
  public enum How {
    /** A dispatch names the label number. */
    LABEL,
    /** The label number lies between the first and the last that a dispatch names. */
    BETWEEN_LABELS,
    /** It is the id of the lot or crop. */
    ID,
    /** It is the id of a fact that names the lot or crop. */
    FACT
  }

  /**
   * A lot or crop that was found.
   *
   * @param dispatch the dispatch that bears the label; empty where it was found otherwise
   */
  public record Found(Subject subject, How how, Optional<Labelled> dispatch) {}

  /**
   * A dispatch that bears a label.
   *
   * @param counts false where it was corrected or withdrawn
   */
  public record Labelled(
      String factId,
      String customerId,
      double massKg,
      Instant happenedAt,
      List<String> labelNumbers,
      boolean counts) {}

  /**
   * All that a text may mean, labels first. Only what the caller sees is found.
   *
   * @param text a label number, an id of a lot, crop or fact, or {@code lot:} or {@code crop:} and
   *     an id
   */
  public List<Found> find(String text) {
    String plain = text.strip();
    Stream<Found> byLabel =
        facts.labels().find(plain).stream().flatMap(hit -> labelled(hit).stream());
    Stream<Found> byId =
        found(
            Stream.concat(
                named(plain).stream(), Stream.of(Subject.lot(plain), Subject.crop(plain))),
            How.ID);
    Stream<Found> byFact =
        found(
            processors.registered(plain).stream()
                .flatMap(entry -> entry.subjects().stream())
                .map(Subject::parse),
            How.FACT);
    return Stream.of(byLabel, byId, byFact).flatMap(found -> found).toList();
  }

  private Stream<Found> found(Stream<Subject> subjects, How how) {
    return subjects
        .filter(subject -> data.row(subject).isPresent())
        .map(subject -> new Found(subject, how, Optional.empty()));
  }

  /** The lot or crop that a text names with its kind, as in {@code lot:L25-S05}. */
  public static Optional<Subject> named(String text) {
    return Stream.of(Subject.Kind.LOT, Subject.Kind.CROP)
        .filter(kind -> text.startsWith(kind.word() + ":"))
        .filter(kind -> text.length() > kind.word().length() + 1)
        .map(kind -> new Subject(kind, text.substring(kind.word().length() + 1)))
        .findFirst();
  }

  /** Told by the dossier of the lot, which knows of corrections and of what was refused. */
  private Optional<Found> labelled(LabelIndex.Found hit) {
    Subject lot = Subject.lot(hit.place().lotId());
    if (!data.sees(lot)) {
      return Optional.empty();
    }
    return processors.entries(lot).stream()
        .filter(entry -> entry.header().getFactId().equals(hit.place().factId()))
        .filter(entry -> entry.fact() instanceof Dispatch)
        .findFirst()
        .map(
            entry ->
                new Found(
                    lot,
                    hit.named() ? How.LABEL : How.BETWEEN_LABELS,
                    Optional.of(labelled(entry, (Dispatch) entry.fact()))));
  }

  private static Labelled labelled(Entry entry, Dispatch dispatch) {
    return new Labelled(
        entry.header().getFactId(),
        dispatch.getCustomerId(),
        dispatch.getMassKg(),
        entry.header().getHappenedAt(),
        List.copyOf(dispatch.getLabelNumbers()),
        entry.counts());
  }
}
