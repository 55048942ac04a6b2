package org.kornspur.api.security;

import org.kornspur.ingest.contract.FactType;

/** Everything that can be done here. {@link Permissions} says which role may do it. */
public enum Permission {
  /** What everybody may reach, without a log-in too: the log-in itself, and what it looks like. */
  LOG_IN,
  /** The manual, without a log-in too: nothing of the site's data stands in it. */
  READ_HELP,
  /** Who one is, one's own password, logging out. */
  OWN_ACCOUNT,
  /** What the interface is: its index, its description, its fact types and its problems. */
  READ_INTERFACE,
  /** The pages as such; what they show needs its own action besides. */
  READ_PAGES,

  READ_CROPS,
  READ_LOTS,
  READ_TRACE,
  READ_OWED,
  /** The quality desk: what needs quality now. */
  READ_DESK,
  /** How seasons compare, and what was predicted beside what was found. */
  READ_SEASONS,
  /** The live stream of standings. */
  READ_CHANGES,
  /** Facts by id, and the facts of a subject. */
  READ_FACTS,
  /** Hybrids, enterprises, pollen sources. */
  READ_MASTER_DATA,
  READ_RULEBOOKS,

  /** To send facts at all; each type of fact needs its own action besides. */
  POST_FACTS,
  /** Enterprises, hybrids, lots without history. */
  POST_MASTER_DATA,
  POST_CROP_DECLARATIONS,
  POST_SOWINGS,
  POST_POLLEN_SOURCES,
  /** To be led to the field book, with its forms for what is seen in a crop. */
  WORK_IN_FIELD,
  /** Field inspections and sterility checks. */
  POST_INSPECTIONS,
  /** Harvest, conditioning, split, merge, dispatch. */
  POST_SEED_MOVEMENTS,
  /** Technical mixtures, and open-pollinated rye added. */
  POST_MIXTURES,
  POST_SAMPLINGS,
  POST_LABORATORY_TESTS,
  /** The samples assigned to one's laboratory, and the forms for their results. */
  WORK_AT_BENCH,
  POST_POST_CONTROL,
  /** Corrections and withdrawals of facts that one may post. */
  POST_CORRECTIONS,
  /** Facts whose {@code header.recordedBy} is another person, as from paper. */
  RECORD_FOR_OTHERS,

  READ_QUARANTINE,
  /** Replay and discard. */
  SETTLE_QUARANTINE,

  ASK_ADVICE,

  /** Release, suspend, condemn, downgrade. */
  SIGN_ACTS,
  READ_ACTS,
  /** The hash chain, its checkpoints, and the keys that sign them. */
  READ_LOG,

  /** A lot's history in a form for others: EPCIS, PROV, spreadsheet, label, dossier. */
  EXPORT,
  CAPTURE_EPCIS,
  QUERY_EPCIS,

  READ_PEOPLE,
  MANAGE_PEOPLE,
  /** Metrics of the running program. */
  READ_OPERATIONS,
  /** To have the data folder copied. */
  BACK_UP,
  /** What instances of one cluster ask each other; no person may. */
  ASK_AS_INSTANCE;

  /** The action that sending a fact of this type needs, besides {@link #POST_FACTS}. */
  public static Permission toPost(FactType type) {
    return switch (type) {
      case ENTERPRISE_DECLARED, HYBRID_DECLARED, LOT_DECLARED -> POST_MASTER_DATA;
      case FIELD_CROP_DECLARED -> POST_CROP_DECLARATIONS;
      case SOWING -> POST_SOWINGS;
      case POLLEN_SOURCE_SEEN, FLOWERING_SEEN -> POST_POLLEN_SOURCES;
      case FIELD_INSPECTION, STERILITY_CHECK -> POST_INSPECTIONS;
      case HARVEST, CONDITIONING, LOT_SPLIT, LOT_MERGE, DISPATCH -> POST_SEED_MOVEMENTS;
      case BLEND, ADMIXTURE -> POST_MIXTURES;
      case SAMPLING -> POST_SAMPLINGS;
      case GERMINATION_TEST,
          PURITY_TEST,
          OTHER_SEED_DETERMINATION,
          MOISTURE_TEST,
          KERNEL_WEIGHT_TEST,
          BLEND_COMPOSITION ->
          POST_LABORATORY_TESTS;
      case POST_CONTROL_RESULT -> POST_POST_CONTROL;
      case WITHDRAWAL -> POST_CORRECTIONS;
      case RELEASE, SUSPENSION, CONDEMNATION, DOWNGRADE, REFUSED_ACT -> SIGN_ACTS;
    };
  }
}
