package org.kornspur.api.security;

import static org.kornspur.api.security.Role.ADMINISTRATOR;
import static org.kornspur.api.security.Role.AUDITOR;
import static org.kornspur.api.security.Role.INSPECTOR;
import static org.kornspur.api.security.Role.LABORATORY;
import static org.kornspur.api.security.Role.MONITOR;
import static org.kornspur.api.security.Role.MULTIPLIER;
import static org.kornspur.api.security.Role.QUALITY;

import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.kornspur.contract.NotificationKind;
import org.kornspur.ingest.contract.FactType;

/**
 * Everything that can be done here, each with the roles that may. Nothing else in this program says
 * who may do what; where a role sees only a part of the data, the visibility draws the border
 * within.
 */
public enum Permission {
  /** What everybody may reach, without a log-in too: the log-in itself, and what it looks like. */
  LOG_IN(Role.values()),
  /** The manual and the OpenAPI document, without a log-in too: no data of the site is in them. */
  READ_HELP(Role.values()),
  /** Who one is, one's own password, what one wants to hear of, logging out. */
  OWN_ACCOUNT(Role.values()),
  /** What the interface is: its index, its description, its fact types and its problems. */
  READ_INTERFACE(MULTIPLIER, INSPECTOR, LABORATORY, QUALITY, AUDITOR, ADMINISTRATOR),
  /** The pages as such; what they show needs its own action besides. */
  READ_PAGES(MULTIPLIER, INSPECTOR, LABORATORY, QUALITY, AUDITOR, ADMINISTRATOR),

  READ_CROPS(MULTIPLIER, INSPECTOR, QUALITY, AUDITOR),
  READ_LOTS(MULTIPLIER, QUALITY, AUDITOR),
  READ_TRACE(MULTIPLIER, QUALITY, AUDITOR),
  /** Crops and lots by any part of what is known of them. */
  SEARCH(MULTIPLIER, INSPECTOR, QUALITY, AUDITOR),
  READ_OWED(MULTIPLIER, INSPECTOR, QUALITY, AUDITOR),
  /** The page of today: what needs quality now. */
  READ_DESK(QUALITY, AUDITOR),
  /** To take causes over and to note what is done about them; no standing changes by it. */
  NOTE_CAUSES(QUALITY),
  /** How seasons compare, and what was predicted beside what was found. */
  READ_SEASONS(MULTIPLIER, INSPECTOR, QUALITY, AUDITOR),
  /** How steady the germination tests of laboratories are. */
  READ_CONTROL_CHARTS(LABORATORY, QUALITY, AUDITOR),
  /** The live stream of standings. */
  READ_CHANGES(MULTIPLIER, INSPECTOR, QUALITY, AUDITOR),
  /** Facts by id, and the facts of a subject. */
  READ_FACTS(MULTIPLIER, INSPECTOR, LABORATORY, QUALITY, AUDITOR),
  /** Hybrids, enterprises, pollen sources. */
  READ_MASTER_DATA(MULTIPLIER, INSPECTOR, QUALITY, AUDITOR),
  READ_RULEBOOKS(MULTIPLIER, INSPECTOR, LABORATORY, QUALITY, AUDITOR, ADMINISTRATOR),

  /** To send facts at all; each type of fact needs its own action besides. */
  POST_FACTS(MULTIPLIER, INSPECTOR, LABORATORY, QUALITY),
  /** Enterprises, hybrids, lots without history. */
  POST_MASTER_DATA(QUALITY),
  POST_CROP_DECLARATIONS(MULTIPLIER, QUALITY),
  POST_SOWINGS(MULTIPLIER, QUALITY),
  POST_POLLEN_SOURCES(MULTIPLIER, INSPECTOR, QUALITY),
  /** To be led to the field book, with its forms for what is seen in a crop. */
  WORK_IN_FIELD(MULTIPLIER, INSPECTOR, QUALITY),
  /** Field inspections and sterility checks. */
  POST_INSPECTIONS(INSPECTOR, QUALITY),
  /** Harvest, conditioning, split, merge, dispatch. */
  POST_SEED_MOVEMENTS(MULTIPLIER, QUALITY),
  /** Technical mixtures, and open-pollinated rye added. */
  POST_MIXTURES(QUALITY),
  POST_SAMPLINGS(QUALITY),
  POST_LABORATORY_TESTS(LABORATORY, QUALITY),
  /** The samples assigned to one's laboratory, and the forms for their results. */
  TEST_SAMPLES(LABORATORY),
  POST_POST_CONTROL(QUALITY),
  /** Corrections and withdrawals of facts that one may post. */
  POST_CORRECTIONS(MULTIPLIER, INSPECTOR, LABORATORY, QUALITY),
  /** Facts whose {@code header.recordedBy} is another person, as from paper. */
  RECORD_FOR_OTHERS(QUALITY),

  READ_QUARANTINE(MULTIPLIER, INSPECTOR, LABORATORY, QUALITY, AUDITOR),
  /** Replay and discard. */
  SETTLE_QUARANTINE(MULTIPLIER, INSPECTOR, LABORATORY, QUALITY),

  ASK_ADVICE(MULTIPLIER, INSPECTOR, QUALITY, AUDITOR),

  /** Plans of the years ahead. */
  READ_PLANS(QUALITY, AUDITOR),
  /** To save and approve plans; no plan changes a standing. */
  MAKE_PLANS(QUALITY),

  /** Release, suspend, condemn, downgrade. */
  SIGN_ACTS(QUALITY),
  READ_ACTS(MULTIPLIER, QUALITY, AUDITOR),
  /** The hash chain, its checkpoints, and the keys that sign them. */
  READ_LOG(QUALITY, AUDITOR),

  /** To have lots put into one archive for an audit, and to have a proof verified. */
  AUDIT(QUALITY, AUDITOR),

  /** A lot's history in a form for others: EPCIS, PROV, spreadsheet, label, dossier. */
  EXPORT(MULTIPLIER, QUALITY, AUDITOR),
  CAPTURE_EPCIS(MULTIPLIER, QUALITY),
  QUERY_EPCIS(MULTIPLIER, QUALITY, AUDITOR),

  /** To see which messages to persons were given up, and have them sent again. */
  SETTLE_MESSAGES(ADMINISTRATOR),

  READ_PEOPLE(AUDITOR, ADMINISTRATOR),
  MANAGE_PEOPLE(ADMINISTRATOR),
  /** To confirm that a person with a new password is the person. */
  CONFIRM_PEOPLE(INSPECTOR, QUALITY, AUDITOR, ADMINISTRATOR),
  /** By what the site judges, whose signatures count there, and how it is set. */
  READ_SITE(AUDITOR, ADMINISTRATOR),
  /** To be led through what a new site needs first; each step needs its own action besides. */
  SET_UP(QUALITY, ADMINISTRATOR),
  /** Metrics of the running program. */
  READ_METRICS(ADMINISTRATOR, MONITOR),
  /** What the running program tells of itself besides. */
  READ_OPERATIONS(ADMINISTRATOR),
  /** To have the data folder copied. */
  BACK_UP(ADMINISTRATOR),
  /** What instances of one cluster ask each other; no person may. */
  ASK_AS_INSTANCE();

  private final Set<Role> roles;

  Permission(Role... roles) {
    this.roles = Set.of(roles);
  }

  /** Whether a person in this role may. */
  public boolean isOf(Role role) {
    return roles.contains(role);
  }

  /** The roles in which a person may. */
  public List<Role> roles() {
    return roles.stream().sorted().toList();
  }

  /** Whether another instance of the same cluster may. */
  public boolean isOfInstances() {
    return this == ASK_AS_INSTANCE;
  }

  /** Whether somebody who did not log in may. */
  public boolean isOfAnybody() {
    return this == LOG_IN || this == READ_HELP;
  }

  /** The action that one must be allowed to hear of this; what one hears is what one sees. */
  public static Optional<Permission> toHearOf(NotificationKind kind) {
    return switch (kind) {
      case UNKNOWN -> Optional.empty();
      case NOT_FIT -> Optional.of(READ_CROPS);
      case RELEASE_SUSPENDED -> Optional.of(READ_LOTS);
      case EVIDENCE_DUE -> Optional.of(READ_OWED);
      case QUARANTINED -> Optional.of(READ_QUARANTINE);
      case VISIT_DUE -> Optional.of(WORK_IN_FIELD);
      case PLAN_SHORT -> Optional.of(READ_PLANS);
    };
  }

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
