package org.kornspur.api.security;

import static org.kornspur.api.security.Permission.*;

import java.util.Collections;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.Map;
import java.util.Set;

/**
 * The one table of role and action. Nothing else in this program says who may do what; where a role
 * sees only a part of the data, the visibility draws the border within.
 */
public final class Permissions {
  private static final Set<Permission> EVERYBODY_WHO_LOGGED_IN =
      EnumSet.of(LOG_IN, READ_HELP, OWN_ACCOUNT, READ_INTERFACE, READ_PAGES, READ_RULEBOOKS);

  private static final Set<Permission> ALL_READING_OF_SEED =
      EnumSet.of(
          READ_CROPS,
          READ_LOTS,
          READ_TRACE,
          READ_OWED,
          READ_DESK,
          READ_SEASONS,
          READ_CHANGES,
          READ_FACTS,
          READ_MASTER_DATA,
          READ_QUARANTINE,
          ASK_ADVICE,
          READ_ACTS,
          READ_LOG,
          EXPORT,
          QUERY_EPCIS);

  private static final Map<Role, Set<Permission>> TABLE = table();

  private Permissions() {}

  private static Map<Role, Set<Permission>> table() {
    Map<Role, Set<Permission>> table = new EnumMap<>(Role.class);
    allow(
        table,
        Role.MULTIPLIER,
        EnumSet.of(
            READ_CROPS,
            READ_LOTS,
            READ_TRACE,
            READ_OWED,
            READ_SEASONS,
            READ_CHANGES,
            READ_FACTS,
            READ_MASTER_DATA,
            POST_FACTS,
            POST_CROP_DECLARATIONS,
            POST_SOWINGS,
            POST_POLLEN_SOURCES,
            WORK_IN_FIELD,
            POST_SEED_MOVEMENTS,
            POST_CORRECTIONS,
            READ_QUARANTINE,
            SETTLE_QUARANTINE,
            ASK_ADVICE,
            READ_ACTS,
            EXPORT,
            CAPTURE_EPCIS,
            QUERY_EPCIS));
    allow(
        table,
        Role.INSPECTOR,
        EnumSet.of(
            READ_CROPS,
            READ_OWED,
            READ_SEASONS,
            READ_CHANGES,
            READ_FACTS,
            READ_MASTER_DATA,
            POST_FACTS,
            POST_INSPECTIONS,
            POST_POLLEN_SOURCES,
            WORK_IN_FIELD,
            POST_CORRECTIONS,
            READ_QUARANTINE,
            SETTLE_QUARANTINE,
            ASK_ADVICE));
    allow(
        table,
        Role.LABORATORY,
        EnumSet.of(
            READ_FACTS,
            WORK_AT_BENCH,
            POST_FACTS,
            POST_LABORATORY_TESTS,
            POST_CORRECTIONS,
            READ_QUARANTINE,
            SETTLE_QUARANTINE));
    allow(
        table,
        Role.QUALITY,
        ALL_READING_OF_SEED,
        EnumSet.of(
            POST_FACTS,
            POST_MASTER_DATA,
            POST_CROP_DECLARATIONS,
            POST_SOWINGS,
            POST_POLLEN_SOURCES,
            WORK_IN_FIELD,
            POST_INSPECTIONS,
            POST_SEED_MOVEMENTS,
            POST_MIXTURES,
            POST_SAMPLINGS,
            POST_LABORATORY_TESTS,
            POST_POST_CONTROL,
            POST_CORRECTIONS,
            RECORD_FOR_OTHERS,
            SETTLE_QUARANTINE,
            SIGN_ACTS,
            CAPTURE_EPCIS));
    allow(table, Role.AUDITOR, ALL_READING_OF_SEED, EnumSet.of(READ_PEOPLE));
    allow(
        table,
        Role.ADMINISTRATOR,
        EnumSet.of(READ_PEOPLE, MANAGE_PEOPLE, READ_OPERATIONS, BACK_UP));
    return Collections.unmodifiableMap(table);
  }

  @SafeVarargs
  private static void allow(
      Map<Role, Set<Permission>> table, Role role, Set<Permission>... actions) {
    Set<Permission> allowed = EnumSet.copyOf(EVERYBODY_WHO_LOGGED_IN);
    for (Set<Permission> more : actions) {
      allowed.addAll(more);
    }
    table.put(role, Collections.unmodifiableSet(allowed));
  }

  /** Whether a person in this role may. */
  public static boolean allow(Role role, Permission action) {
    return TABLE.get(role).contains(action);
  }

  /** Whether a person with these roles may; any one of them is enough. */
  public static boolean allow(Set<Role> roles, Permission action) {
    return roles.stream().anyMatch(role -> allow(role, action));
  }

  /** Whether another instance of the same cluster may. */
  public static boolean allowInstance(Permission action) {
    return action == ASK_AS_INSTANCE;
  }

  /** Whether somebody who did not log in may. */
  public static boolean allowAnybody(Permission action) {
    return action == LOG_IN || action == READ_HELP;
  }
}
