package org.kornspur.api.kafka;

import io.quarkus.runtime.StartupEvent;
import jakarta.annotation.Priority;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.event.Observes;
import jakarta.interceptor.Interceptor;
import java.util.Arrays;
import java.util.stream.Collectors;
import org.kornspur.api.storage.CannotStart;
import org.kornspur.api.text.Language;

/** The language of the site, as the setting names it. */
@ApplicationScoped
class SiteLanguage {

  void set(
      @Observes @Priority(Interceptor.Priority.PLATFORM_BEFORE) StartupEvent start,
      EngineSettings settings) {
    Language.setOfSite(of(settings.language()));
  }

  /**
   * The language that is set.
   *
   * @throws CannotStart if it is not spoken here
   */
  static Language of(String setting) {
    return Language.of(setting)
        .orElseThrow(
            () ->
                new CannotStart(
                    "Setting kornspur.language is '"
                        + setting
                        + "', which is not spoken here. Give one of "
                        + Arrays.stream(Language.values())
                            .map(Language::tag)
                            .collect(Collectors.joining(", ")),
                    null));
  }
}
