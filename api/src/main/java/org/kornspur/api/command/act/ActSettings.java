package org.kornspur.api.command.act;

import io.smallrye.config.ConfigMapping;
import io.smallrye.config.WithDefault;

/** Settings under {@code kornspur.release.}. */
@ConfigMapping(prefix = "kornspur.release")
public interface ActSettings {

  /** Whether two different persons must sign a release before it takes effect. */
  @WithDefault("false")
  boolean twoPersons();

  /** Whether one entry of the password may sign the release of several lots. */
  @WithDefault("true")
  boolean severalAtOnce();
}
