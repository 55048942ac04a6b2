package org.kornspur.api.command.act;

import io.smallrye.config.ConfigMapping;
import io.smallrye.config.WithDefault;

/** Settings under {@code kornspur.release.}. */
@ConfigMapping(prefix = "kornspur.release")
public interface ActSettings {

  /** Whether two different persons must sign a release before it takes effect. */
  @WithDefault("false")
  boolean twoPersons();
}
