package org.kornspur.api.web;

import io.quarkus.qute.RawString;
import java.util.List;
import java.util.Optional;
import org.kornspur.standing.VerdictState;

/**
 * A gate as a page shows it.
 *
 * @param name in the words of the trade
 * @param aspect tells verdicts of one gate apart; else empty
 * @param value value with unit; empty where evidence is owed
 * @param limit limit with unit; empty where no rulebook gives one
 * @param margin room left to the limit, with unit
 * @param interval in words; empty where the value is exact
 * @param source of the limit
 * @param bring what is to be brought, as HTML; empty where nothing is owed
 * @param findings what was found, each a sentence of HTML
 * @param advice what to do, each a sentence of HTML
 * @param facts that it rests on
 * @param corrections facts that seem mistaken, and the form that corrects each
 */
public record GateLine(
    String name,
    String aspect,
    VerdictState state,
    Optional<String> value,
    Optional<String> limit,
    Optional<String> margin,
    Optional<String> interval,
    Optional<String> source,
    Optional<RawString> bring,
    List<RawString> findings,
    List<RawString> advice,
    Optional<GateScale> scale,
    List<FactLink> facts,
    List<FactLink> corrections) {

  /**
   * A fact and where it is shown.
   *
   * @param href empty where it is not shown to who asks
   */
  public record FactLink(String factId, String href) {}
}
