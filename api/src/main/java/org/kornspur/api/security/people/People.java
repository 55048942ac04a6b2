package org.kornspur.api.security.people;

import io.quarkus.runtime.StartupEvent;
import io.quarkus.runtime.configuration.ConfigurationException;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.event.Observes;
import jakarta.inject.Inject;
import java.time.Clock;
import java.util.Collection;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.Supplier;
import java.util.function.UnaryOperator;
import org.kornspur.api.problem.AccountProblem;
import org.kornspur.api.problem.ApiProblem;
import org.kornspur.api.problem.PeopleDetail;
import org.kornspur.api.problem.ProblemKind;
import org.kornspur.api.security.AccessSettings;
import org.kornspur.api.security.Caller;
import org.kornspur.api.security.CurrentCaller;
import org.kornspur.api.security.Role;
import org.kornspur.api.time.SteadyClock;
import org.kornspur.ingest.intake.Problem;
import org.kornspur.ingest.problem.Given;

/** Who is known on this machine; made at the first start with one person for each role. */
@ApplicationScoped
public class People {
  /** Who decides on seed must not be able to make or take over the account of a signer. */
  private static final Set<Role> DUTIES_APART = EnumSet.of(Role.QUALITY, Role.ADMINISTRATOR);

  private final AccessSettings settings;
  private final PeopleFile file;
  private final Supplier<String> who;
  private final Clock clock = SteadyClock.ofMachine();

  @Inject
  People(AccessSettings settings, CurrentCaller caller) {
    this(settings, () -> caller.ifKnown().map(Caller::personId).orElse("nobody who logged in"));
  }

  /**
   * Changed by whoever is told to ask.
   *
   * @param who id of the person
   */
  public People(AccessSettings settings, Supplier<String> who) {
    this.settings = settings;
    this.who = who;
    this.file =
        new PeopleFile(
            settings.peopleFile().orElseGet(() -> settings.dataFolder().resolve("people.json")),
            who);
  }

  /** Before anything listens. */
  void start(@Observes StartupEvent started) {
    if (areKeptHere()) {
      FirstPeople.make(settings.demo(), new PeopleFile(file.path()), System.out);
      requireSeparateDuties();
    }
  }

  private void requireSeparateDuties() {
    List<String> both =
        settings.separateDuties()
            ? file.all().stream()
                .filter(person -> person.roles().containsAll(DUTIES_APART))
                .map(Person::personId)
                .toList()
            : List.of();
    if (!both.isEmpty()) {
      throw new ConfigurationException(
          "Kornspur could not start: kornspur.separate-duties is true, and quality and administrator"
              + " in one are: %s. Start without it, give each of them one of the two roles, and set"
                  .formatted(String.join(", ", both))
              + " it again.");
    }
  }

  /** Whether anybody was entered beside those of the first start. */
  public boolean areMoreThanFirst() {
    return areKeptHere()
        && file.all().stream().anyMatch(person -> !FirstPeople.ids().contains(person.personId()));
  }

  /** The people of the demo who may log in; nobody where this site is none. */
  public List<DemoPeople> demo() {
    return areKeptHere() && settings.demo() ? DemoPeople.among(file.all()) : List.of();
  }

  /** Whether this program knows the people, and not an issuer of tokens. */
  public boolean areKeptHere() {
    return settings.access() == AccessSettings.Means.PEOPLE;
  }

  /**
   * Reads the people.
   *
   * @throws PeopleUnreadable if nobody can log in, because their file is broken
   */
  public void requireReadable() {
    if (areKeptHere()) {
      file.all();
    }
  }

  public Optional<Person> find(String personId) {
    return areKeptHere() ? file.find(personId) : Optional.empty();
  }

  /** Puts into the journal what happens to a person outside the people file. */
  public void note(PeopleChange.Kind what, String personId) {
    file.note(what, personId);
  }

  /** Every change of the people, and whether the record of them is whole. */
  public JournalReading journal() {
    return file.journal();
  }

  /** The same as the file has it this moment, whoever changed it. */
  public Optional<Person> findAnew(String personId) {
    return areKeptHere() ? file.findAnew(personId) : Optional.empty();
  }

  public Collection<Person> all() {
    requireKeptHere();
    return file.all();
  }

  /**
   * One person.
   *
   * @throws ApiProblem if nobody has the id
   */
  public Person get(String personId) {
    requireKeptHere();
    return file.find(personId).orElseThrow(() -> unknown(personId));
  }

  /** A person with a password that was just made and is shown once. */
  public record Made(Person person, String password) {
    @Override
    public String toString() {
      return person.personId();
    }
  }

  /**
   * Adds a person.
   *
   * @throws ApiProblem if the id is taken
   */
  public Made add(
      String personId, String printedName, Set<Role> roles, Optional<String> enterpriseId) {
    requireKeptHere();
    requireConfirmed();
    requireApart(roles);
    String password = PasswordGenerator.made();
    Made made =
        new Made(
            new Person(
                personId,
                printedName,
                roles,
                enterpriseId,
                PasswordHash.of(password),
                true,
                false,
                clock.instant(),
                Optional.of(who.get())),
            password);
    file.change(
        people -> {
          if (people.putIfAbsent(personId, made.person()) != null) {
            throw new ApiProblem(
                ProblemKind.PERSON_CONFLICT,
                Problem.of("personId", personId, new AccountProblem.PersonIdTaken()));
          }
          return people;
        });
    return made;
  }

  /** Gives a person other roles, another name or another enterprise. */
  public Person change(
      String personId, String printedName, Set<Role> roles, Optional<String> enterpriseId) {
    requireConfirmed();
    requireApart(roles);
    return change(
        personId, person -> person.with(printedName, roles, enterpriseId, clock.instant()));
  }

  public Person disable(String personId, boolean disabled) {
    requireConfirmed();
    return change(personId, person -> person.withDisabled(disabled, clock.instant()));
  }

  /** Makes a new password for a person, with which the person sets another. */
  public Made renewPassword(String personId) {
    requireConfirmed();
    String password = PasswordGenerator.made();
    PasswordHash hash = PasswordHash.of(password);
    Person changed =
        change(personId, person -> person.withIssued(hash, who.get(), clock.instant()));
    return new Made(changed, password);
  }

  /** Sets the password that a person chose. */
  public Person setPassword(String personId, String password) {
    PasswordHash hash = PasswordHash.of(password);
    return change(personId, person -> person.withPassword(hash, clock.instant()));
  }

  /**
   * Takes the word of whoever asks that a person set the own password. Then the person may sign:
   * using the signature of another takes two persons (model: 21 CFR 11.200 (a) (3)).
   *
   * @throws ApiProblem if the caller is the person, issued the password, or is to be confirmed too;
   *     or the person has not set an own one yet
   */
  public Person confirm(String personId) {
    String confirming = who.get();
    get(confirming);
    requireConfirmed();
    return change(
        personId,
        person -> {
          if (person.issued()) {
            refuse(new PeopleDetail.NoOwnPassword());
          }
          if (confirming.equals(personId)
              || person.issuedBy().filter(confirming::equals).isPresent()) {
            refuse(new PeopleDetail.NotByThemselves());
          }
          return person.withIssuedBy(Optional.empty());
        });
  }

  /** Else one administrator could make another and be two persons. */
  private void requireConfirmed() {
    find(who.get())
        .flatMap(Person::issuedBy)
        .ifPresent(by -> refuse(new PeopleDetail.NotConfirmed(by)));
  }

  /**
   * Who issued the password of a person who may do nothing yet but wait to be confirmed; nobody
   * where the site does not keep duties apart.
   */
  public Optional<String> heldBackBy(String personId) {
    return settings.separateDuties() ? find(personId).flatMap(Person::issuedBy) : Optional.empty();
  }

  private static void refuse(PeopleDetail why) {
    throw new ApiProblem(ProblemKind.PERSON_CONFLICT, why);
  }

  /** Ends every log-in of a person. */
  public void endSessions(String personId) {
    change(personId, person -> person.withSessionsFrom(clock.instant()));
  }

  private Person change(String personId, UnaryOperator<Person> change) {
    requireKeptHere();
    file.change(
        people -> {
          if (people.computeIfPresent(personId, (id, person) -> change.apply(person)) == null) {
            throw unknown(personId);
          }
          if (people.values().stream().noneMatch(Person::isActiveAdministrator)) {
            throw new ApiProblem(
                ProblemKind.PERSON_CONFLICT, new PeopleDetail.NoAdministratorLeft());
          }
          return people;
        });
    return file.find(personId).orElseThrow(() -> unknown(personId));
  }

  public static ApiProblem unknown(String personId) {
    return ApiProblem.notFound(new PeopleDetail.Unknown(Given.text(personId, false)));
  }

  private void requireApart(Set<Role> roles) {
    if (settings.separateDuties() && roles.containsAll(DUTIES_APART)) {
      throw new ApiProblem(ProblemKind.PERSON_CONFLICT, new PeopleDetail.BothDuties());
    }
  }

  private void requireKeptHere() {
    if (!areKeptHere()) {
      throw new ApiProblem(
          ProblemKind.PERSON_CONFLICT, new PeopleDetail.KeptByIssuer(settings.oidc().issuer()));
    }
  }
}
