package org.kornspur.api.web.fieldbook;

import java.util.Arrays;
import java.util.Optional;
import org.kornspur.ingest.contract.FactType;

/** A form that a person fills in; each makes one type of fact. */
public interface FactForm {

  /** Last part of its address. */
  String path();

  /** Type of the fact that it makes. */
  FactType type();

  /** The one of these forms with this last part of the address. */
  static <F extends FactForm> Optional<F> at(String path, F[] forms) {
    return Arrays.stream(forms).filter(form -> form.path().equals(path)).findFirst();
  }
}
