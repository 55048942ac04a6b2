package org.kornspur.processors.judging;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.dossier.InheritedFinding;
import org.kornspur.processors.dossier.Material;
import org.kornspur.processors.release.LotRelease;
import org.kornspur.processors.verdict.Fitness;
import org.kornspur.processors.verdict.RuleNote;
import org.kornspur.processors.verdict.Verdict;

/**
 * Whether a crop or lot is fit, and everything that this rests on. A function of the facts alone:
 * it holds no clock and no revision number.
 *
 * @param subject the crop or lot
 * @param state fit, not fit, or evidence owed
 * @param material what it is; empty while its origin is unknown
 * @param rulebook title and edition of the rulebook that it was judged by; empty where none was
 *     found
 * @param verdicts one for each gate and aspect that applies
 * @param inherited what it takes over from ancestors
 * @param heldKg mass that came in, kilograms; 0 for a crop
 * @param givenOutKg mass that went out, kilograms; 0 for a crop
 * @param holder enterprise that grows the crop or declared the lot; empty where nothing says so
 * @param parents where the seed came from
 * @param release what persons did; empty for a crop, and for a lot of which there is nothing to say
 * @param customersKg mass that left for customers, kilograms; 0 for a crop
 * @param floweringFrom first day of flowering; empty for a lot, and where it is not declared
 * @param floweringTo last day of flowering, likewise
 * @param ruleNotes what the rulebook says beside its limits: where it asks for nothing
 */
public record Standing(
    Subject subject,
    Fitness state,
    Optional<Material> material,
    Optional<String> rulebook,
    List<Verdict> verdicts,
    List<InheritedFinding> inherited,
    double heldKg,
    double givenOutKg,
    Optional<String> holder,
    List<Subject> parents,
    Optional<LotRelease> release,
    double customersKg,
    Optional<LocalDate> floweringFrom,
    Optional<LocalDate> floweringTo,
    List<RuleNote> ruleNotes) {}
