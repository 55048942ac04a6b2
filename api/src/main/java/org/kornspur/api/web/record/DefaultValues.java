package org.kornspur.api.web.record;

import jakarta.enterprise.context.RequestScoped;
import jakarta.inject.Inject;
import java.time.Clock;
import java.time.LocalDateTime;
import java.time.temporal.ChronoUnit;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.kornspur.api.query.RequestWords;
import org.kornspur.api.security.Caller;
import org.kornspur.api.security.CurrentCaller;
import org.kornspur.api.security.Role;
import org.kornspur.api.web.form.Field;
import org.kornspur.api.web.form.Field.Kind;
import org.kornspur.api.web.form.FormParts;
import org.kornspur.api.web.form.FormView;

/** Default values of a form for a new fact. */
@RequestScoped
public class DefaultValues {
  /** Ids that stay from one fact to the next: lots, samples and masses do not. */
  private static final Set<String> STAY =
      Set.of("known-crop", "known-hybrid", "known-component", "known-enterprise", "known-rulebook");

  @Inject CurrentCaller caller;
  @Inject RequestWords words;
  @Inject LastEntries last;
  private final Clock clock = Clock.systemUTC();

  /**
   * What an address says of the fact.
   *
   * @param lot that it is about; empty where none is known, as all of these
   * @param outline corners, each as longitude and latitude, with semicolons between them
   */
  record Given(String lot, String crop, String cropYear, String outline) {

    String value(Field field) {
      return switch (field.name()) {
        case "cropYear" -> cropYear;
        case "outline" -> outline.replace(",", ", ").replace(';', '\n');
        default -> "";
      };
    }
  }

  /**
   * A form with what is known.
   *
   * @param given what the address says
   * @param next whether it is the next after one that the person recorded
   */
  FormView<ContractForm> in(
      FormView<ContractForm> sheet, FormPrefill basis, Given given, boolean next) {
    Map<String, String> before =
        next ? last.of(caller.get().personId(), sheet.form().type()).orElse(Map.of()) : Map.of();
    boolean isNew = basis.mended().isEmpty() && basis.refused().isEmpty();
    Optional<String> aboutLot = first(sheet, "known-lot");
    Optional<String> aboutCrop = first(sheet, "known-crop");
    return sheet.mapping(
        field -> {
          if (!field.value().isEmpty()) {
            return field;
          }
          if (field.name().equals(FormParts.HAPPENED_AT)) {
            return field.starting(before.getOrDefault(field.name(), now()));
          }
          if (!isNew) {
            return field;
          }
          if (aboutLot.filter(field.name()::equals).isPresent() && !given.lot().isEmpty()) {
            return field.starting(given.lot());
          }
          if (aboutCrop.filter(field.name()::equals).isPresent() && !given.crop().isEmpty()) {
            return field.starting(given.crop());
          }
          if (!given.value(field).isEmpty()) {
            return field.starting(given.value(field));
          }
          return field.starting(
              stays(field) && before.containsKey(field.name())
                  ? before.get(field.name())
                  : own(field));
        });
  }

  private static Optional<String> first(FormView<ContractForm> sheet, String list) {
    return sheet.fields().filter(field -> field.list().equals(list)).map(Field::name).findFirst();
  }

  private static boolean stays(Field field) {
    boolean isOfRow = field.name().contains("[");
    return !isOfRow
        && (STAY.contains(field.list())
            || field.list().startsWith("last-")
            || field.kind() == Kind.CHOICE);
  }

  /** The enterprise of who types: the laboratory of an analyst, the grower of a crop. */
  private String own(Field field) {
    Optional<Caller> known = caller.ifKnown();
    boolean isOwn =
        switch (field.name()) {
          case "laboratoryId" ->
              known.filter(one -> one.roles().contains(Role.LABORATORY)).isPresent();
          case "enterpriseId" ->
              known.filter(one -> one.roles().contains(Role.MULTIPLIER)).isPresent();
          default -> false;
        };
    return isOwn ? known.flatMap(Caller::enterpriseId).orElse("") : "";
  }

  private String now() {
    return LocalDateTime.ofInstant(clock.instant(), words.form().zone())
        .truncatedTo(ChronoUnit.MINUTES)
        .toString();
  }
}
