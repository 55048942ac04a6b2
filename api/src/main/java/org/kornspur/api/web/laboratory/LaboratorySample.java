package org.kornspur.api.web.laboratory;

import java.util.List;
import java.util.Optional;
import org.kornspur.api.query.view.Caution.Treatment;
import org.kornspur.processors.verdict.Gate;

/**
 * A sample as its laboratory sees it.
 *
 * @param href its page
 * @param category of the lot, in words; empty where whoever asks may not see the lot
 * @param drawn day on which it was drawn
 * @param assigned day on which the drawing was recorded, with the laboratory that it goes to
 * @param daysWaiting whole days since it was assigned
 * @param open whether a test is asked for that has no result, or one is asked for again
 * @param asked tests that the lot's rulebook asks for
 * @param treatment what the seed was treated with
 * @param ergotFound whether this laboratory found ergot in it
 */
public record LaboratorySample(
    String lotId,
    String sampleId,
    String href,
    Optional<String> category,
    String drawn,
    String assigned,
    long daysWaiting,
    boolean open,
    List<Asked> asked,
    Treated treatment,
    boolean ergotFound) {

  /**
   * A test that is asked for.
   *
   * @param gate the gate that asks for it
   * @param name in the words of the trade
   * @param again what is asked for beyond the results so far, as the gate says it; else empty
   */
  public record Asked(Gate gate, String name, Progress progress, String again) {}

  /** How far a test is. */
  public enum Progress {
    TO_DO,
    HAS_RESULT,
    /** Results that this laboratory brought do not settle it. */
    AGAIN
  }

  /**
   * Whether the seed was treated.
   *
   * @param with what, as on its label; empty where none is known
   */
  public record Treated(boolean unknown, String with) {

    static Treated of(Treatment treatment) {
      return treatment instanceof Treatment.With known
          ? new Treated(false, known.treatment())
          : new Treated(treatment instanceof Treatment.Unknown, "");
    }

    /** Whether it must be handled as treated seed. */
    public boolean careful() {
      return unknown || !with.isEmpty();
    }
  }
}
