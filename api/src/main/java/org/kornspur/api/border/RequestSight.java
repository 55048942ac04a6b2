package org.kornspur.api.border;

import jakarta.enterprise.context.RequestScoped;
import java.util.function.Supplier;
import org.kornspur.api.access.Sight;

/** The sight of who asks in this request, once it was asked for. */
@RequestScoped
public class RequestSight {
  private Sight sight;

  Sight orMake(Supplier<Sight> make) {
    if (sight == null) {
      sight = make.get();
    }
    return sight;
  }
}
