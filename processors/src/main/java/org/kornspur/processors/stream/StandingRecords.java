package org.kornspur.processors.stream;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.wire.WireFormat;
import org.kornspur.processors.dossier.InheritedFinding;
import org.kornspur.processors.dossier.Material;
import org.kornspur.processors.judging.Standing;
import org.kornspur.processors.pedigree.Edge;
import org.kornspur.processors.release.LotRelease;
import org.kornspur.processors.release.SuspensionReason.RulesChanged;
import org.kornspur.processors.standards.Limit;
import org.kornspur.processors.standards.RulesFingerprint;
import org.kornspur.processors.verdict.Measured;
import org.kornspur.processors.verdict.RuleNote;
import org.kornspur.processors.verdict.Verdict;
import org.kornspur.standing.ActSigned;
import org.kornspur.standing.GateVerdict;
import org.kornspur.standing.InheritedTrouble;
import org.kornspur.standing.LimitThen;
import org.kornspur.standing.LotStanding;
import org.kornspur.standing.PedigreeEdge;
import org.kornspur.standing.ReleaseStep;
import org.kornspur.standing.RulesChange;
import org.kornspur.standing.SeedMaterial;
import org.kornspur.standing.StandingState;
import org.kornspur.standing.VerdictChange;
import org.kornspur.standing.VerdictInterval;
import org.kornspur.standing.VerdictLimit;
import org.kornspur.standing.VerdictState;
import org.kornspur.standing.VerdictValue;

/** Standings and edges in the public form that their topics carry. */
public final class StandingRecords {
  private final WireFormat wire;

  StandingRecords(WireFormat wire) {
    this.wire = wire;
  }

  /**
   * A standing in its public form.
   *
   * @param rules fingerprint of the rules that made it
   */
  static DossierRecord.OfStanding of(Standing standing, RulesFingerprint rules) {
    return new DossierRecord.OfStanding(
        new EncodedRecord<>(form(standing).setRules(rules.hex()).build()));
  }

  static DossierRecord.OfEdge of(Edge edge) {
    return new DossierRecord.OfEdge(
        new EncodedRecord<>(
            new PedigreeEdge(
                edge.parent().toString(),
                edge.child().toString(),
                edge.massKg(),
                edge.by().contractName(),
                edge.factId(),
                edge.happenedAt())));
  }

  Edge readEdge(byte[] bytes) {
    PedigreeEdge edge = (PedigreeEdge) wire.decode(bytes);
    return new Edge(
        Subject.parse(edge.getParent()),
        Subject.parse(edge.getChild()),
        edge.getMassKg(),
        FactType.named(edge.getBy()).orElseThrow(),
        edge.getFactId(),
        edge.getHappenedAt());
  }

  /** A standing in its public form, without the rules that made it. */
  public static LotStanding publicForm(Standing standing) {
    return form(standing).build();
  }

  private static LotStanding.Builder form(Standing standing) {
    return LotStanding.newBuilder()
        .setSubject(standing.subject().toString())
        .setState(StandingState.valueOf(standing.state().name()))
        .setMaterial(standing.material().map(StandingRecords::publicForm).orElse(null))
        .setRulebook(standing.rulebook().orElse(null))
        .setVerdicts(standing.verdicts().stream().map(StandingRecords::publicForm).toList())
        .setInherited(standing.inherited().stream().map(StandingRecords::publicForm).toList())
        .setHeldKg(standing.heldKg())
        .setGivenOutKg(standing.givenOutKg())
        .setHolder(standing.holder().orElse(null))
        .setParents(texts(standing.parents()))
        .setRelease(standing.release().map(StandingRecords::publicForm).orElse(null))
        .setCustomersKg(standing.customersKg())
        .setFloweringFrom(standing.floweringFrom().orElse(null))
        .setFloweringTo(standing.floweringTo().orElse(null))
        .setRuleNotes(standing.ruleNotes().stream().map(StandingRecords::publicForm).toList());
  }

  private static org.kornspur.standing.LotRelease publicForm(LotRelease release) {
    return org.kornspur.standing.LotRelease.newBuilder()
        .setStep(ReleaseStep.valueOf(release.step().name()))
        .setSince(release.since().orElse(null))
        .setSignatures(release.signatures().stream().map(StandingRecords::publicForm).toList())
        .setSignaturesNeeded(release.signaturesNeeded())
        .setReason(release.why().map(StatementRecords::write).orElse(null))
        .setCauses(release.causes())
        .setChanges(release.changes().stream().map(StandingRecords::publicForm).toList())
        .setDowngradedFrom(release.downgradedFrom().map(Enum::name).orElse(null))
        .setDispatchedUnreleasedKg(release.dispatchedUnreleasedKg())
        .setUsedUnreleasedKg(release.usedUnreleasedKg())
        .setRulesChanges(
            release.reasons().stream()
                .filter(RulesChanged.class::isInstance)
                .map(reason -> publicForm((RulesChanged) reason))
                .toList())
        .build();
  }

  private static RulesChange publicForm(RulesChanged changed) {
    return new RulesChange(
        changed.gate().name(),
        changed.aspect(),
        changed.before().name(),
        changed.after().name(),
        changed
            .oldLimit()
            .map(limit -> new LimitThen(limit.getSense(), limit.getValue(), limit.getUnit()))
            .orElse(null),
        changed.newLimit().map(StandingRecords::publicForm).orElse(null));
  }

  private static ActSigned publicForm(LotRelease.Signed signed) {
    return new ActSigned(
        signed.actId(),
        signed.kind(),
        signed.signerId(),
        signed.meaning(),
        signed.reason(),
        signed.signedAt(),
        signed.seal());
  }

  private static VerdictChange publicForm(LotRelease.Change change) {
    return VerdictChange.newBuilder()
        .setGate(change.gate())
        .setAspect(change.aspect())
        .setInheritedFrom(change.inheritedFrom().orElse(null))
        .setBefore(change.before().name())
        .setAfter(change.after().name())
        .setFactIds(change.factIds())
        .setSentence("")
        .setAbout(change.about().map(StatementRecords::write).orElse(null))
        .setFindings(StatementRecords.write(change.findings()))
        .build();
  }

  private static SeedMaterial publicForm(Material material) {
    return new SeedMaterial(
        material.hybridId(),
        material.seedId(),
        material.kind().name(),
        material.category().name(),
        material.cropYear(),
        material.rulebookId());
  }

  private static GateVerdict publicForm(Verdict verdict) {
    GateVerdict.Builder form =
        GateVerdict.newBuilder()
            .setGate(verdict.gate().name())
            .setAspect(verdict.aspect())
            .setLimit(verdict.limit().map(StandingRecords::publicForm).orElse(null))
            .setFactIds(verdict.factIds())
            .setSentence("")
            .setAbout(verdict.about().map(StatementRecords::write).orElse(null))
            .setFindings(StatementRecords.write(verdict.findings()))
            .setAdvice(StatementRecords.write(verdict.advice()));
    if (verdict instanceof Verdict.Met met) {
      form.setState(VerdictState.MET).setMeasured(publicForm(met.measured()));
    } else if (verdict instanceof Verdict.NotMet notMet) {
      form.setState(VerdictState.NOT_MET).setMeasured(publicForm(notMet.measured()));
    } else if (verdict instanceof Verdict.Owed owed) {
      form.setState(VerdictState.OWED).setEvidence(StatementRecords.write(owed.evidence()));
    }
    return form.build();
  }

  private static org.kornspur.standing.RuleNote publicForm(RuleNote note) {
    return new org.kornspur.standing.RuleNote(
        note.gate().map(Enum::name).orElse(null), StatementRecords.write(note.finding()));
  }

  private static VerdictValue publicForm(Measured measured) {
    Optional<VerdictInterval> interval =
        measured.interval().map(i -> new VerdictInterval(i.lower(), i.upper(), i.confidence()));
    return new VerdictValue(
        measured.value(), measured.unit(), measured.margin(), interval.orElse(null));
  }

  private static VerdictLimit publicForm(Limit limit) {
    return VerdictLimit.newBuilder()
        .setQuantity(limit.quantity().name())
        .setSense(limit.sense().name())
        .setValue(limit.value())
        .setUnit(limit.unit())
        .setRulebookId(limit.rulebookId())
        .setEdition(limit.rulebookId().equals(Limit.BREEDER) ? "" : limit.edition())
        .setSection(limit.section())
        .setInForceFrom(limit.inForceFrom())
        .setVerified(limit.verified())
        .setStatedValue(limit.stated().value())
        .setStatedIn(limit.stated().in().orElse(null))
        .setText(limit.text())
        .setInForceTo(limit.inForceTo().map(LocalDate::toString).orElse(null))
        .build();
  }

  private static InheritedTrouble publicForm(InheritedFinding trouble) {
    return InheritedTrouble.newBuilder()
        .setGate(trouble.gate().name())
        .setAspect(trouble.aspect())
        .setWeight(trouble.weight().name())
        .setOrigin(trouble.origin().toString())
        .setPath(texts(trouble.path()))
        .setFactIds(trouble.factIds())
        .setSentence("")
        .setAbout(trouble.about().map(StatementRecords::write).orElse(null))
        .setFindings(StatementRecords.write(trouble.findings()))
        .build();
  }

  /** Whether an inherited problem weighs so much. */
  public static boolean weighs(InheritedTrouble trouble, InheritedFinding.Weight weight) {
    return trouble.getWeight().equals(weight.name());
  }

  private static List<String> texts(List<Subject> subjects) {
    return subjects.stream().map(Subject::toString).toList();
  }
}
