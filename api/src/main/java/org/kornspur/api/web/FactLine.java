package org.kornspur.api.web;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeSet;
import java.util.function.Function;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.kornspur.api.readmodel.ReceiptTimes;
import org.kornspur.api.text.DomainTerms;
import org.kornspur.api.web.FactValues.Shown;
import org.kornspur.contract.Correction;
import org.kornspur.contract.FactHeader;
import org.kornspur.contract.Withdrawal;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.processors.dossier.Entry;

/**
 * A fact in a time line. One that was corrected stands there with its values struck, and the one
 * that corrected it says what it changed.
 *
 * @param anchor name of its place on the page
 * @param type in the words of the trade
 * @param late how long after that it was received; empty where that was as usual, or the fact may
 *     not be shown whole
 * @param corrects id of the fact that it corrects or takes back; else empty
 * @param takesBack whether it takes back rather than corrects
 * @param reason why it corrects
 * @param changes fields that it changed
 * @param values all that it says, field by field
 * @param mending where it may be corrected and taken back by who asks
 */
public record FactLine(
    Entry entry,
    String anchor,
    String type,
    Optional<ReceiptTimes.Late> late,
    Optional<String> corrects,
    boolean takesBack,
    String reason,
    List<Change> changes,
    List<Value> values,
    Mending mending) {

  /** Addresses of forms that correct a fact and take it back; empty where that is not allowed. */
  public record Mending(String correctHref, String takeBackHref) {
    static final Mending NONE = new Mending("", "");
  }

  /**
   * A field that a correction changed; an absent value is empty.
   *
   * @param english whether the field has no name but that of the contract
   */
  public record Change(String field, boolean english, String was, String is) {}

  /**
   * A field and its value.
   *
   * @param english whether the field has no name but that of the contract
   */
  public record Value(String field, boolean english, String value) {}

  /** Where each fact of a time line may be mended, by its id. */
  static Map<String, Mending> mendings(List<FactLine> facts) {
    return facts.stream()
        .collect(
            Collectors.toMap(
                fact -> fact.entry().header().getFactId(), FactLine::mending, (one, same) -> one));
  }

  /** Name of a fact's place on the page that shows it. */
  static String anchorOf(String factId) {
    return "fact-" + factId;
  }

  /**
   * The facts of a dossier as a time line, in their order.
   *
   * @param written writes what a fact says
   * @param seen whether all that a fact says may be shown; of others type and time stand alone
   * @param mending where a fact may be mended that counts and may be shown
   */
  static List<FactLine> of(
      List<Entry> entries,
      ReceiptTimes receipts,
      DomainTerms trade,
      FactValues written,
      Predicate<Entry> seen,
      Function<Entry, Mending> mending) {
    Map<String, Entry> byId =
        entries.stream()
            .filter(seen)
            .collect(Collectors.toMap(entry -> entry.header().getFactId(), Function.identity()));
    return entries.stream()
        .map(
            entry ->
                of(
                    entry,
                    byId,
                    receipts,
                    trade,
                    written,
                    entry.counts() && byId.containsKey(entry.header().getFactId())
                        ? mending.apply(entry)
                        : Mending.NONE))
        .toList();
  }

  private static FactLine of(
      Entry entry,
      Map<String, Entry> byId,
      ReceiptTimes receipts,
      DomainTerms trade,
      FactValues written,
      Mending mending) {
    FactHeader header = entry.header();
    Optional<Withdrawal> withdrawal =
        Optional.of(entry.fact()).filter(Withdrawal.class::isInstance).map(Withdrawal.class::cast);
    Optional<Correction> correction = Optional.ofNullable(header.getCorrection());
    Optional<String> corrects =
        correction
            .map(Correction::getSupersedes)
            .or(() -> withdrawal.map(Withdrawal::getWithdrawnFactId));
    boolean isWhole = byId.containsKey(header.getFactId());
    Map<String, Shown> values = isWhole ? written.of(entry.fact()) : Map.of();
    return new FactLine(
        entry,
        anchorOf(header.getFactId()),
        FactType.of(entry.fact().getSchema()).map(trade::fact).orElse(""),
        isWhole ? receipts.late(header) : Optional.empty(),
        corrects,
        withdrawal.isPresent(),
        correction
            .map(Correction::getReason)
            .or(() -> withdrawal.map(Withdrawal::getReason))
            .orElse(""),
        correction
            .map(Correction::getSupersedes)
            .map(byId::get)
            .map(before -> changes(written.of(before.fact()), values))
            .orElse(List.of()),
        values.values().stream()
            .map(value -> new Value(value.field(), value.english(), value.value()))
            .toList(),
        mending);
  }

  private static List<Change> changes(Map<String, Shown> before, Map<String, Shown> after) {
    return Stream.concat(before.keySet().stream(), after.keySet().stream())
        .collect(Collectors.toCollection(TreeSet::new))
        .stream()
        .map(path -> change(before.get(path), after.get(path)))
        .filter(change -> !change.was().equals(change.is()))
        .toList();
  }

  private static Change change(Shown before, Shown after) {
    Shown named = after == null ? before : after;
    return new Change(
        named.field(),
        named.english(),
        before == null ? "" : before.value(),
        after == null ? "" : after.value());
  }
}
