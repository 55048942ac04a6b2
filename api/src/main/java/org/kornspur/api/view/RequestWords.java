package org.kornspur.api.view;

import jakarta.enterprise.context.RequestScoped;
import jakarta.inject.Inject;
import jakarta.ws.rs.core.Context;
import jakarta.ws.rs.core.HttpHeaders;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.Optional;
import java.util.function.Supplier;
import org.kornspur.api.access.Visibility;
import org.kornspur.api.readmodel.SampleFeed;
import org.kornspur.api.text.Language;
import org.kornspur.api.text.LocalForm;
import org.kornspur.api.text.Reader;
import org.kornspur.api.text.StandingWords;
import org.kornspur.api.text.VerdictWords;
import org.kornspur.api.text.Words;
import org.kornspur.api.visibility.VisibilityService;
import org.kornspur.ingest.contract.Subject;

/** Words for who asks: in their language, and of what they may know. */
@RequestScoped
public class RequestWords {
  private final Language language;
  private final VisibilityService border;
  private final SampleFeed facts;

  @Inject
  RequestWords(@Context HttpHeaders headers, VisibilityService border, SampleFeed facts) {
    this.language = Language.of(headers);
    this.border = border;
    this.facts = facts;
  }

  public Words words() {
    return new Words(reader(border::visibility));
  }

  public VerdictWords verdicts() {
    return new VerdictWords(words());
  }

  public StandingWords standings() {
    return new StandingWords(verdicts());
  }

  /** Words for a listener who stays: what may be told to them can change. */
  public StandingWords standings(Supplier<Visibility> visibility) {
    return new StandingWords(new VerdictWords(new Words(reader(visibility))));
  }

  private Reader reader(Supplier<Visibility> visibility) {
    LocalForm form = new LocalForm(language, ZoneId.systemDefault());
    LocalDate today = LocalDate.now(form.zone());
    return new Reader() {
      @Override
      public LocalForm form() {
        return form;
      }

      @Override
      public LocalDate today() {
        return today;
      }

      @Override
      public boolean names(Subject subject) {
        return !visibility.get().withholdsNames() || visibility.get().names(subject);
      }

      @Override
      public boolean namesFact(String factId) {
        return border.namesFact(visibility.get(), factId);
      }

      @Override
      public Optional<String> nameOf(Subject enterprise) {
        return facts.enterprises().of(enterprise.id());
      }

      @Override
      public Optional<String> pageOf(Subject subject) {
        return switch (subject.kind()) {
          case LOT, CROP ->
              visibility.get().sees(subject)
                  ? Optional.of(Addresses.of(subject).substring(Addresses.ROOT.length()))
                  : Optional.empty();
          case SOURCE, HYBRID, ENTERPRISE -> Optional.empty();
        };
      }
    };
  }
}
