package org.kornspur.api.security.visibility;

import java.util.Optional;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.api.problem.RightsProblem;
import org.kornspur.api.security.Caller;
import org.kornspur.api.security.Permission;
import org.kornspur.api.security.Role;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.intake.Problem;
import org.kornspur.ingest.statement.Value.Person;

/**
 * Which ids of facts a caller may give. Whoever may give any id could take one that another is
 * going to give, and the other's fact would be refused as a conflict. So ids of growers and
 * laboratories are their own.
 */
final class FactIdOwnership {
  /** RFC 9562; ids that a field book makes on the phone have this form. */
  private static final Pattern UUID_FORM =
      Pattern.compile("(epcis-)?[0-9a-fA-F]{8}(-[0-9a-fA-F]{4}){3}-[0-9a-fA-F]{12}(-[0-9]+)?");

  private static final String SEPARATORS = "-_.:/";

  private FactIdOwnership() {}

  /** What speaks against the caller giving the id of this fact; empty where nothing does. */
  static Optional<Problem> against(Caller caller, SpecificRecord fact) {
    String factId = FactType.idOf(fact);
    boolean mayGiveAny =
        caller.may(Permission.RECORD_FOR_OTHERS) || caller.roles().contains(Role.INSPECTOR);
    if (mayGiveAny || UUID_FORM.matcher(factId).matches() || beginsAsOwn(caller, factId)) {
      return Optional.empty();
    }
    return Optional.of(
        Problem.of(
            "header.factId",
            factId,
            new RightsProblem.ForeignFactId(caller.enterpriseId(), new Person(caller.personId()))));
  }

  private static boolean beginsAsOwn(Caller caller, String factId) {
    return Stream.concat(Stream.of(caller.personId()), caller.enterpriseId().stream())
        .filter(factId::startsWith)
        .map(own -> factId.substring(own.length()))
        .anyMatch(rest -> rest.length() > 1 && SEPARATORS.indexOf(rest.charAt(0)) >= 0);
  }
}
