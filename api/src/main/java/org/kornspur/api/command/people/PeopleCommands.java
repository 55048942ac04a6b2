package org.kornspur.api.command.people;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.Optional;
import java.util.Set;
import org.jboss.logging.Logger;
import org.kornspur.api.command.act.SignerNames;
import org.kornspur.api.command.notification.NotificationChoices;
import org.kornspur.api.problem.ApiProblem;
import org.kornspur.api.security.CurrentCaller;
import org.kornspur.api.security.Role;
import org.kornspur.api.security.people.AccountBody;
import org.kornspur.api.security.people.People;
import org.kornspur.api.security.people.PeopleChange;
import org.kornspur.api.security.people.Person;

/**
 * What may be done to the people of the people file, by the interface and by the pages alike. Each
 * stands in the journal of people, and in the log.
 */
@ApplicationScoped
public class PeopleCommands {
  private static final Logger LOG = Logger.getLogger(PeopleCommands.class);

  @Inject People people;
  @Inject SignerNames names;
  @Inject NotificationChoices notifications;
  @Inject CurrentCaller caller;

  /**
   * Adds a person with an issued password.
   *
   * @param asked with personId, printedName, roles and enterpriseId
   * @throws ApiProblem if anything of it is wrong, or the id is taken
   */
  public People.Made add(AccountBody asked) {
    String personId = asked.personId("personId");
    String printedName = asked.text("printedName");
    Set<Role> roles = asked.roles("roles");
    Optional<String> enterpriseId = asked.optionalId("enterpriseId");
    asked.check();
    People.Made made = people.add(personId, printedName, roles, enterpriseId);
    LOG.infof("%s added person %s as %s", by(), personId, roles);
    return made;
  }

  /**
   * Gives a person another name, other roles or another enterprise.
   *
   * @param asked with printedName, roles and enterpriseId
   * @throws ApiProblem if anything of it is wrong, or nobody would be left to manage the people
   */
  public Person change(String id, AccountBody asked) {
    String printedName = asked.text("printedName");
    Set<Role> roles = asked.roles("roles");
    Optional<String> enterpriseId = asked.optionalId("enterpriseId");
    asked.check();
    Person changed = people.change(id, printedName, roles, enterpriseId);
    LOG.infof("%s changed person %s to %s", by(), id, roles);
    return changed;
  }

  /**
   * Lets a person come in no more, or again.
   *
   * @throws ApiProblem if nobody would be left to manage the people
   */
  public Person disable(String id, boolean disabled) {
    Person changed = people.disable(id, disabled);
    LOG.infof("%s %s person %s", by(), disabled ? "disabled" : "enabled", id);
    return changed;
  }

  /** Issues a new password. */
  public People.Made renewPassword(String id) {
    People.Made made = people.renewPassword(id);
    LOG.infof("%s made a new password for person %s", by(), id);
    return made;
  }

  /**
   * Confirms that a person set the own password.
   *
   * @throws ApiProblem if the caller cannot confirm it
   */
  public Person confirm(String id) {
    Person confirmed = people.confirm(id);
    LOG.infof("%s confirmed the password of person %s", by(), id);
    return confirmed;
  }

  /**
   * Has the printed name beside what a person signed forgotten, and the address that messages to
   * the person go to.
   */
  public void forgetName(String id) {
    // told before, so that nothing is forgotten without a trace
    people.note(PeopleChange.Kind.SIGNER_NAME_FORGOTTEN, id);
    try {
      names.forget(id);
      notifications.forget(id);
    } catch (RuntimeException notConfirmed) {
      people.note(PeopleChange.Kind.FORGETTING_NOT_CONFIRMED, id);
      throw notConfirmed;
    }
    LOG.infof("%s had the printed name of person %s forgotten", by(), id);
  }

  private String by() {
    return caller.get().personId();
  }
}
