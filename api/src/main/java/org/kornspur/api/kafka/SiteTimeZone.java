package org.kornspur.api.kafka;

import io.quarkus.runtime.StartupEvent;
import jakarta.annotation.Priority;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.event.Observes;
import jakarta.interceptor.Interceptor;
import java.time.DateTimeException;
import java.time.ZoneId;
import java.util.Optional;
import java.util.TimeZone;
import org.kornspur.api.storage.CannotStart;

/**
 * The time zone of the site: that of the setting, or of the machine. It is made the zone of the
 * whole program, so that no page, form, file or paper can have another.
 */
@ApplicationScoped
class SiteTimeZone {

  void set(
      @Observes @Priority(Interceptor.Priority.PLATFORM_BEFORE) StartupEvent start,
      EngineSettings settings) {
    of(settings.timeZone()).ifPresent(zone -> TimeZone.setDefault(TimeZone.getTimeZone(zone)));
  }

  /**
   * The zone that is set.
   *
   * @throws CannotStart if there is no such zone; Java itself would take UTC then and say nothing
   */
  static Optional<ZoneId> of(Optional<String> setting) {
    try {
      return setting.map(ZoneId::of);
    } catch (DateTimeException unknown) {
      throw new CannotStart(
          "Setting kornspur.time-zone is '"
              + setting.get()
              + "', which is no time zone. Give a name of the IANA time zone database, such as"
              + " Europe/Berlin",
          unknown);
    }
  }
}
