package org.kornspur.api.security.visibility;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.api.kafka.ProcessorsClient;
import org.kornspur.api.problem.RightsProblem;
import org.kornspur.api.readmodel.ReadModel;
import org.kornspur.api.security.Caller;
import org.kornspur.api.security.CurrentCaller;
import org.kornspur.api.security.Permission;
import org.kornspur.api.security.Role;
import org.kornspur.api.security.limit.RecentClaims;
import org.kornspur.contract.FieldCropDeclared;
import org.kornspur.contract.SenderRole;
import org.kornspur.ingest.attestation.SignedSubmissions;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.intake.Problem;
import org.kornspur.ingest.statement.Value.Person;

/**
 * Whether a caller may bring a fact: by its type, by who recorded it, by what it is about, and by
 * what it corrects. A subject of another's is refused in the same words as one that is not known.
 */
@ApplicationScoped
public class PostingPolicy {
  private static final int MOST_CREATED = 50_000;

  @Inject ProcessorsClient processors;
  @Inject ReadModel readModel;
  @Inject VisibilityService visibilityService;
  @Inject CurrentCaller current;
  @Inject PreviewClaims preview;
  private final RecentClaims<Subject> made = new RecentClaims<>(MOST_CREATED);

  /** What speaks against the caller of this request bringing the fact; empty where nothing does. */
  public List<Problem> against(SpecificRecord fact) {
    Caller caller = current.get();
    List<Problem> problems = new ArrayList<>();
    againstType(caller, fact).ifPresent(problems::add);
    againstRecorder(caller, fact).ifPresent(problems::add);
    if (problems.isEmpty()) {
      FactIdOwnership.against(caller, fact).ifPresent(problems::add);
    }
    if (problems.isEmpty()) {
      problems.addAll(againstSubjects(caller, fact));
    }
    if (problems.isEmpty()) {
      againstOwnExceptions(caller, fact).forEach(problems::add);
    }
    if (problems.isEmpty()) {
      corrections(caller).against(fact).ifPresent(problems::add);
    }
    return problems;
  }

  /** Whether the caller of this request may correct or take back a fact that is on record. */
  public boolean mayMend(SpecificRecord earlier) {
    return corrections(current.get()).mayMend(earlier);
  }

  private CorrectionRights corrections(Caller caller) {
    return new CorrectionRights(processors, caller, earlier -> mayBring(caller, earlier));
  }

  /**
   * Ids that the fact would give and that are taken; empty where one of the caller's roles may give
   * any, and then they are the caller's. That an id is taken tells of others' seed: say so only
   * where nothing else is wrong.
   */
  public List<Problem> againstNewIds(SpecificRecord fact) {
    return againstNewIds(current.get(), fact);
  }

  private List<Problem> againstNewIds(Caller caller, SpecificRecord fact) {
    boolean givesAnyId =
        caller.roles().stream()
            .anyMatch(
                role -> role != Role.MULTIPLIER && Permission.toPost(FactType.of(fact)).isOf(role));
    return givesAnyId
        ? List.of()
        : caller.enterpriseId().map(id -> holder(id).againstNewIds(fact)).orElse(List.of());
  }

  /** To be told of every fact that goes in, so that the next may build on it at once. */
  public void goesIn(SpecificRecord fact) {
    current
        .ifKnown()
        .flatMap(Caller::enterpriseId)
        .ifPresent(
            enterprise ->
                SeedMovements.made(fact)
                    .forEach(subject -> preview.claimsOr(made).take(subject, enterprise)));
  }

  /**
   * Who brings a fact that nothing speaks against: the caller of this request, in the strongest
   * role that may bring it.
   */
  public SignedSubmissions.Sender sender(SpecificRecord fact) {
    Caller caller = current.get();
    Permission needed = Permission.toPost(FactType.of(fact));
    List<Role> strongestFirst =
        caller.roles().stream()
            .filter(needed::isOf)
            .filter(role -> senderRole(role).isPresent())
            .sorted(Comparator.comparing(role -> senderRole(role).get(), Comparator.reverseOrder()))
            .toList();
    Role role =
        strongestFirst.size() == 1
            ? strongestFirst.get(0)
            : strongestFirst.stream()
                .filter(held -> againstSubjects(held, caller, fact).isEmpty())
                .findFirst()
                .orElseThrow(() -> new IllegalStateException("The fact was not checked before"));
    return new SignedSubmissions.Sender(
        caller.personId(), senderRole(role).orElseThrow(), caller.enterpriseId());
  }

  private static Optional<SenderRole> senderRole(Role role) {
    return switch (role) {
      case MULTIPLIER -> Optional.of(SenderRole.MULTIPLIER);
      case INSPECTOR -> Optional.of(SenderRole.INSPECTOR);
      case LABORATORY -> Optional.of(SenderRole.LABORATORY);
      case QUALITY -> Optional.of(SenderRole.QUALITY);
      case AUDITOR, ADMINISTRATOR, MONITOR -> Optional.empty();
    };
  }

  private boolean mayBring(Caller caller, SpecificRecord fact) {
    return againstType(caller, fact).isEmpty()
        && againstSubjects(caller, fact).isEmpty()
        && againstNewIds(caller, fact).isEmpty();
  }

  private static Optional<Problem> againstType(Caller caller, SpecificRecord fact) {
    Permission needed = Permission.toPost(FactType.of(fact));
    if (caller.may(needed)) {
      return Optional.empty();
    }
    return Optional.of(
        Problem.of(
            "type",
            FactType.of(fact).contractName(),
            new RightsProblem.OtherRole(
                caller.roles().stream().sorted().toList(), needed.roles())));
  }

  private static Optional<Problem> againstRecorder(Caller caller, SpecificRecord fact) {
    String recordedBy = FactType.headerOf(fact).getRecordedBy();
    if (recordedBy.equals(caller.personId()) || caller.may(Permission.RECORD_FOR_OTHERS)) {
      return Optional.empty();
    }
    return Optional.of(
        Problem.of(
            "header.recordedBy",
            recordedBy,
            new RightsProblem.OtherRecorder(new Person(caller.personId()))));
  }

  private List<Problem> againstSubjects(Caller caller, SpecificRecord fact) {
    Permission needed = Permission.toPost(FactType.of(fact));
    List<Problem> problems = List.of();
    for (Role role : caller.roles().stream().sorted().toList()) {
      if (needed.isOf(role)) {
        problems = againstSubjects(role, caller, fact);
        if (problems.isEmpty()) {
          return problems;
        }
      }
    }
    return problems;
  }

  private List<Problem> againstSubjects(Role role, Caller caller, SpecificRecord fact) {
    return switch (role) {
      case QUALITY, INSPECTOR, AUDITOR, ADMINISTRATOR, MONITOR -> List.of();
      case MULTIPLIER ->
          caller
              .enterpriseId()
              .map(id -> holder(id).against(fact))
              .orElseGet(() -> List.of(unbound(caller)));
      case LABORATORY ->
          caller
              .enterpriseId()
              .map(id -> new LaboratoryRights(id, processors).against(fact))
              .orElseGet(() -> List.of(unbound(caller)));
    };
  }

  private GrowerPostingRights holder(String enterpriseId) {
    return new GrowerPostingRights(
        enterpriseId,
        visibilityService.visibility(),
        processors,
        readModel.standings(),
        preview.claimsOr(made));
  }

  private static Problem unbound(Caller caller) {
    return Problem.of("header.recordedBy", caller.personId(), new RightsProblem.NoEnterprise());
  }

  /** The authority grants exceptions, and whoever grows the crop does not say so alone. */
  private static List<Problem> againstOwnExceptions(Caller caller, SpecificRecord fact) {
    boolean isGrower =
        caller.roles().stream()
            .filter(Permission.toPost(FactType.of(fact))::isOf)
            .allMatch(Role.MULTIPLIER::equals);
    if (!isGrower || !(fact instanceof FieldCropDeclared crop)) {
      return List.of();
    }
    Map<String, Boolean> accepted = new TreeMap<>();
    accepted.put("shieldAccepted", crop.getShieldAccepted());
    accepted.put("smallAreaAccepted", crop.getSmallAreaAccepted());
    return accepted.entrySet().stream()
        .filter(said -> Boolean.TRUE.equals(said.getValue()))
        .map(said -> Problem.of(said.getKey(), "true", new RightsProblem.GrantedByAuthority()))
        .toList();
  }
}
