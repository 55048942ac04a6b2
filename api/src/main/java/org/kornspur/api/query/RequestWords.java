package org.kornspur.api.query;

import io.quarkus.qute.TemplateInstance;
import jakarta.enterprise.context.RequestScoped;
import jakarta.ws.rs.core.Context;
import jakarta.ws.rs.core.HttpHeaders;
import java.time.ZoneId;
import java.util.function.Supplier;
import org.kornspur.api.query.view.AsOf;
import org.kornspur.api.readmodel.FactReadModel;
import org.kornspur.api.security.visibility.Visibility;
import org.kornspur.api.security.visibility.VisibilityService;
import org.kornspur.api.text.Audience;
import org.kornspur.api.text.DomainTerms;
import org.kornspur.api.text.FirstReasonWords;
import org.kornspur.api.text.Language;
import org.kornspur.api.text.LocalFormat;
import org.kornspur.api.text.PageTexts;
import org.kornspur.api.text.ReaderWords;
import org.kornspur.api.text.VerdictWords;

/** Words for the caller: in their language, and of what they may know. */
@RequestScoped
public class RequestWords {
  private final HttpHeaders headers;
  private final VisibilityService visibilityService;
  private final FactReadModel facts;
  private Language language;

  RequestWords(
      @Context HttpHeaders headers, VisibilityService visibilityService, FactReadModel facts) {
    this.headers = headers;
    this.visibilityService = visibilityService;
    this.facts = facts;
  }

  public Language language() {
    if (language == null) {
      language = Language.of(headers);
    }
    return language;
  }

  /** Sets the language of work that goes on after its request. */
  public void setLanguage(Language ofCaller) {
    language = ofCaller;
  }

  /** Writes dates, numbers and units for the caller. */
  public LocalFormat form() {
    return new LocalFormat(language(), ZoneId.systemDefault());
  }

  public DomainTerms terms() {
    return DomainTerms.in(language());
  }

  /** The texts of this name in the language of the caller. */
  public PageTexts texts(String name) {
    return PageTexts.in(language(), name);
  }

  /** A page or paper as text. */
  public String render(TemplateInstance page) {
    return page.setLocale(language().locale()).render();
  }

  /** How fresh data are, in one sentence. */
  public String freshness(AsOf asOf) {
    PageTexts messages = texts("frame");
    String time = form().minute(asOf.answeredAt());
    if (asOf.complete()) {
      return messages.of("asOfComplete", time);
    }
    return asOf.recordsWaiting() == null
        ? messages.of("asOfUnknown", time)
        : messages.of("asOfWaiting", time, form().count(asOf.recordsWaiting()));
  }

  public ReaderWords words() {
    return new ReaderWords(reader(visibilityService::visibility));
  }

  public VerdictWords verdicts() {
    return new VerdictWords(words());
  }

  public FirstReasonWords firstReasons() {
    return new FirstReasonWords(verdicts());
  }

  /** Words for a listener who stays: what may be told to them can change. */
  public FirstReasonWords firstReasons(Supplier<Visibility> visibility) {
    return new FirstReasonWords(new VerdictWords(new ReaderWords(reader(visibility))));
  }

  private Audience reader(Supplier<Visibility> visibility) {
    return new VisibleAudience(form(), true, visibility, visibilityService, facts);
  }
}
