package org.kornspur.api.security.people;

import java.util.Arrays;
import java.util.Collection;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import org.kornspur.api.security.Role;

/**
 * The invented people of the demo, one for each role. The grower and the analyst work for
 * enterprises of the demo, so that their pages have work in them. No other start makes people with
 * these ids.
 */
public enum DemoPeople {
  QUALITY(Role.QUALITY, null),
  MULTIPLIER(Role.MULTIPLIER, "ENT-MULT-HILL"),
  INSPECTOR(Role.INSPECTOR, null),
  LABORATORY(Role.LABORATORY, "ENT-LAB-TWO"),
  AUDITOR(Role.AUDITOR, null),
  ADMINISTRATOR(Role.ADMINISTRATOR, null);

  private final Role role;
  private final String enterpriseId;

  DemoPeople(Role role, String enterpriseId) {
    this.role = role;
    this.enterpriseId = enterpriseId;
  }

  public String personId() {
    return "demo-" + role.name().toLowerCase(Locale.ROOT);
  }

  public Role role() {
    return role;
  }

  /** Whom the person works for; empty where the role sees more than one enterprise. */
  public Optional<String> enterpriseId() {
    return Optional.ofNullable(enterpriseId);
  }

  Set<Role> roles() {
    return Set.of(role);
  }

  /** Those who may still log in. */
  static List<DemoPeople> among(Collection<Person> people) {
    return Arrays.stream(values())
        .filter(
            one ->
                people.stream()
                    .anyMatch(
                        person -> person.personId().equals(one.personId()) && !person.disabled()))
        .toList();
  }
}
