package org.kornspur.api.security.visibility;

import jakarta.enterprise.context.RequestScoped;
import java.util.function.Supplier;

/** The visibility of who asks in this request, once it was asked for. */
@RequestScoped
public class RequestVisibility {
  private Visibility visibility;

  Visibility orMake(Supplier<Visibility> make) {
    if (visibility == null) {
      visibility = make.get();
    }
    return visibility;
  }
}
