package org.kornspur.api.web.form;

import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;
import org.kornspur.ingest.contract.FactType;

/** A form that a person fills in; each makes one type of fact. */
public interface FactForm {

  /** Name of its constant. */
  String name();

  /** Type of the fact that it makes. */
  FactType type();

  /** Last part of its address, as in {@code other-seeds}. */
  default String path() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  /** A form that may be filled in, with its address. */
  record Task(FactForm form, String href) {}

  /** The one of these forms with this last part of the address. */
  static <F extends FactForm> Optional<F> at(String path, F[] forms) {
    return Arrays.stream(forms).filter(form -> form.path().equals(path)).findFirst();
  }
}
