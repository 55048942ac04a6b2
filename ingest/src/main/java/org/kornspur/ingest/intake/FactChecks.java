package org.kornspur.ingest.intake;

import java.util.List;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.contract.Admixture;
import org.kornspur.contract.Blend;
import org.kornspur.contract.BlendComposition;
import org.kornspur.contract.Condemnation;
import org.kornspur.contract.Conditioning;
import org.kornspur.contract.Dispatch;
import org.kornspur.contract.Downgrade;
import org.kornspur.contract.EnterpriseDeclared;
import org.kornspur.contract.FieldCropDeclared;
import org.kornspur.contract.FieldInspection;
import org.kornspur.contract.GerminationTest;
import org.kornspur.contract.HybridDeclared;
import org.kornspur.contract.KernelWeightTest;
import org.kornspur.contract.LotDeclared;
import org.kornspur.contract.LotMerge;
import org.kornspur.contract.LotSplit;
import org.kornspur.contract.OtherSeedDetermination;
import org.kornspur.contract.PollenSourceSeen;
import org.kornspur.contract.PostControlResult;
import org.kornspur.contract.RefusedAct;
import org.kornspur.contract.Release;
import org.kornspur.contract.Sampling;
import org.kornspur.contract.Sowing;
import org.kornspur.contract.SterilityCheck;
import org.kornspur.contract.Suspension;
import org.kornspur.contract.Withdrawal;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.contract.FieldPath;

/**
 * Says what is wrong with a fact by itself, without any other fact: values against the limits of
 * the contract, then the rules that tie several fields of one fact together.
 */
public final class FactChecks {

  private FactChecks() {}

  /**
   * Checks a fact.
   *
   * @return what is wrong, in the order of the fields; empty for a fact that may be taken in
   * @throws IllegalArgumentException if the record is no fact of this contract
   */
  public static List<Problem> check(SpecificRecord fact) {
    FactType type = FactType.of(fact);
    Problems problems = new Problems();
    boolean whole = FieldLimits.check(fact.getSchema(), fact, FieldPath.FACT, problems);
    if (whole) {
      FactSize.check(fact, problems);
      HeaderCheck.check(FactType.headerOf(fact), problems);
      checkTiedFields(type, fact, problems);
    }
    return problems.list();
  }

  private static void checkTiedFields(FactType type, SpecificRecord fact, Problems problems) {
    switch (type) {
      case ENTERPRISE_DECLARED -> DeclarationChecks.check((EnterpriseDeclared) fact, problems);
      case HYBRID_DECLARED -> HybridCheck.check((HybridDeclared) fact, problems);
      case FIELD_CROP_DECLARED -> DeclarationChecks.check((FieldCropDeclared) fact, problems);
      case LOT_DECLARED -> DeclarationChecks.check((LotDeclared) fact, problems);
      case SOWING -> MovementChecks.check((Sowing) fact, problems);
      case POLLEN_SOURCE_SEEN -> DeclarationChecks.check((PollenSourceSeen) fact, problems);
      case FIELD_INSPECTION -> CountChecks.check((FieldInspection) fact, problems);
      case STERILITY_CHECK -> CountChecks.check((SterilityCheck) fact, problems);
      case CONDITIONING -> MovementChecks.check((Conditioning) fact, problems);
      case LOT_SPLIT -> MovementChecks.check((LotSplit) fact, problems);
      case LOT_MERGE -> MovementChecks.check((LotMerge) fact, problems);
      case BLEND -> MovementChecks.check((Blend) fact, problems);
      case ADMIXTURE -> MovementChecks.check((Admixture) fact, problems);
      case SAMPLING -> MovementChecks.check((Sampling) fact, problems);
      case GERMINATION_TEST -> CountChecks.check((GerminationTest) fact, problems);
      case OTHER_SEED_DETERMINATION -> CountChecks.check((OtherSeedDetermination) fact, problems);
      case KERNEL_WEIGHT_TEST -> CountChecks.check((KernelWeightTest) fact, problems);
      case BLEND_COMPOSITION -> CountChecks.check((BlendComposition) fact, problems);
      case POST_CONTROL_RESULT -> CountChecks.check((PostControlResult) fact, problems);
      case DISPATCH -> MovementChecks.check((Dispatch) fact, problems);
      case WITHDRAWAL -> HeaderCheck.check((Withdrawal) fact, problems);
      case RELEASE -> ActCheck.check((Release) fact, problems);
      case SUSPENSION -> ActCheck.check((Suspension) fact, problems);
      case CONDEMNATION -> ActCheck.check((Condemnation) fact, problems);
      case DOWNGRADE -> ActCheck.check((Downgrade) fact, problems);
      case REFUSED_ACT -> ActCheck.check((RefusedAct) fact, problems);
      case FLOWERING_SEEN, HARVEST, PURITY_TEST, MOISTURE_TEST -> {
        // each field stands alone
      }
    }
  }
}
