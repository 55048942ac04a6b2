package org.kornspur.api.visibility;

import jakarta.enterprise.context.RequestScoped;
import java.util.function.Supplier;
import org.kornspur.api.access.Visibility;

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
