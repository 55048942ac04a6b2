package org.kornspur.api.export;

import io.smallrye.config.ConfigMapping;
import io.smallrye.config.WithDefault;
import java.util.Map;
import java.util.Optional;

/** Settings under {@code kornspur.} for what goes out. */
@ConfigMapping(prefix = "kornspur")
public interface ExportSettings {

  /** Where others reach the pages; lots and crops are named by it outside. Never change it. */
  @WithDefault("http://127.0.0.1:8080")
  String publicAddress();

  /**
   * What the names of our own in EPCIS and PROV begin with; an address of the site, where it wants
   * to say there what they mean. Never change it after the first export.
   */
  @WithDefault("https://kornspur.example/ns/")
  String vocabularyAddress();

  /** GS1 company prefix, where there is one: every GTIN below must have been given out under it. */
  Optional<String> gs1CompanyPrefix();

  /** GTIN by hybrid, as {@code kornspur.gtin."HYB-01"}; for the hybrid's F1 seed. */
  Map<String, String> gtin();
}
