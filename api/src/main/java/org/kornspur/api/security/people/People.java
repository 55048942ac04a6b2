package org.kornspur.api.security.people;

import io.quarkus.runtime.StartupEvent;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.event.Observes;
import jakarta.inject.Inject;
import java.io.PrintStream;
import java.nio.file.Files;
import java.security.SecureRandom;
import java.time.Clock;
import java.time.Instant;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Supplier;
import java.util.function.UnaryOperator;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.kornspur.api.problem.AccountProblem;
import org.kornspur.api.problem.ApiProblem;
import org.kornspur.api.problem.PeopleDetail;
import org.kornspur.api.problem.ProblemKind;
import org.kornspur.api.security.AccessSettings;
import org.kornspur.api.security.Caller;
import org.kornspur.api.security.CurrentCaller;
import org.kornspur.api.security.Role;
import org.kornspur.ingest.intake.Problem;
import org.kornspur.ingest.problem.Given;

/** Who is known on this machine; made at the first start with one person for each role. */
@ApplicationScoped
public class People {
  private static final String PASSWORD_CHARACTERS = "abcdefghijkmnpqrstuvwxyz23456789";
  private static final SecureRandom RANDOM = new SecureRandom();

  private final AccessSettings settings;
  private final PeopleFile file;
  private final Clock clock = Clock.systemUTC();

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
    this.file =
        new PeopleFile(
            settings.peopleFile().orElseGet(() -> settings.dataFolder().resolve("people.json")),
            who);
  }

  /** Before anything listens. */
  void start(@Observes StartupEvent started) {
    if (areKeptHere()) {
      makeFirst(new PeopleFile(file.path()), System.out);
    }
  }

  boolean areKeptHere() {
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
    Made made = made(personId, printedName, roles, enterpriseId, true, clock.instant());
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
    return change(
        personId, person -> person.with(printedName, roles, enterpriseId, clock.instant()));
  }

  public Person disable(String personId, boolean disabled) {
    return change(personId, person -> person.withDisabled(disabled, clock.instant()));
  }

  /** Makes a new password for a person, with which the person sets another. */
  public Made renewPassword(String personId) {
    String password = newPassword();
    return new Made(setPassword(personId, password, true), password);
  }

  /** Sets the password that a person chose. */
  public Person setPassword(String personId, String password) {
    return setPassword(personId, password, false);
  }

  private Person setPassword(String personId, String password, boolean isIssued) {
    PasswordHash hash = PasswordHash.of(password);
    return change(personId, person -> person.withPassword(hash, isIssued, clock.instant()));
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

  private void requireKeptHere() {
    if (!areKeptHere()) {
      throw new ApiProblem(
          ProblemKind.PERSON_CONFLICT, new PeopleDetail.KeptByIssuer(settings.oidc().issuer()));
    }
  }

  private static Made made(
      String personId,
      String printedName,
      Set<Role> roles,
      Optional<String> enterpriseId,
      boolean isIssued,
      Instant now) {
    String password = newPassword();
    return new Made(
        new Person(
            personId,
            printedName,
            roles,
            enterpriseId,
            PasswordHash.of(password),
            isIssued,
            false,
            now),
        password);
  }

  /** Four groups of letters and digits that are not mistaken for each other, 120 bits. */
  static String newPassword() {
    return Stream.generate(
            () ->
                RANDOM
                    .ints(6, 0, PASSWORD_CHARACTERS.length())
                    .mapToObj(at -> PASSWORD_CHARACTERS.substring(at, at + 1))
                    .collect(Collectors.joining()))
        .limit(4)
        .collect(Collectors.joining("-"));
  }

  /** The console is the only place where these passwords ever stand in clear. */
  static void makeFirst(PeopleFile file, PrintStream console) {
    if (Files.exists(file.path())) {
      return;
    }
    Map<String, Made> first = new LinkedHashMap<>();
    for (Role role : Role.values()) {
      String word = role.name().toLowerCase(Locale.ROOT);
      String printedName = word.substring(0, 1).toUpperCase(Locale.ROOT) + word.substring(1);
      first.put(
          word, made(word, printedName, Set.of(role), Optional.empty(), false, Instant.now()));
    }
    boolean[] made = {false};
    file.change(
        people -> {
          if (people.isEmpty()) {
            first.forEach((id, person) -> people.put(id, person.person()));
            made[0] = true;
          }
          return people;
        });
    if (made[0]) {
      StringBuilder text =
          new StringBuilder("\nFirst start: one person for each role. Write these down now; ")
              .append("they are not shown again.\n")
              .append("Each person should set another: POST /api/v1/account/password.\n\n");
      first.forEach((id, person) -> text.append("  %-14s %s%n".formatted(id, person.password())));
      text.append("\nThe people file is ").append(file.path()).append("\n");
      console.println(text);
    }
  }
}
