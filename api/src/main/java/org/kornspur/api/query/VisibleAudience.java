package org.kornspur.api.query;

import java.time.LocalDate;
import java.util.Optional;
import java.util.function.Supplier;
import org.kornspur.api.readmodel.FactReadModel;
import org.kornspur.api.security.visibility.Visibility;
import org.kornspur.api.security.visibility.VisibilityService;
import org.kornspur.api.text.Addresses;
import org.kornspur.api.text.Audience;
import org.kornspur.api.text.LocalFormat;
import org.kornspur.ingest.contract.Subject;

/**
 * One who reads as far as a visibility lets them, which may change while they read.
 *
 * @param namesPersons false for what leaves the pages
 */
public record VisibleAudience(
    LocalFormat form,
    boolean namesPersons,
    Supplier<Visibility> visibility,
    VisibilityService visibilityService,
    FactReadModel facts)
    implements Audience {

  @Override
  public LocalDate today() {
    return LocalDate.now(form.zone());
  }

  @Override
  public boolean names(Subject subject) {
    return !visibility.get().withholdsNames() || visibility.get().names(subject);
  }

  @Override
  public boolean namesFact(String factId) {
    return visibilityService.namesFact(visibility.get(), factId);
  }

  @Override
  public Optional<String> nameOf(Subject enterprise) {
    return facts.enterprises().of(enterprise.id());
  }

  @Override
  public Optional<String> pageOf(Subject subject) {
    return Optional.of(subject)
        .filter(one -> one.kind().isJudged() && visibility.get().sees(one))
        .map(Addresses::pageOf);
  }
}
