package org.kornspur.api.page;

import io.quarkus.qute.i18n.Message;
import io.quarkus.qute.i18n.MessageBundle;

/** Texts of lists and their filters. */
@MessageBundle("list")
public interface ListMessages {

  @Message("Season (year of harvest)")
  String season();

  @Message("Hybrid")
  String hybrid();

  @Message("Multiplier")
  String holder();

  @Message("Category")
  String category();

  @Message("Standing")
  String state();

  @Message("Id begins with")
  String id();

  @Message("All")
  String all();

  @Message("Show")
  String show();

  @Message("Show all")
  String showAll();

  @Message("Filters")
  String filters();

  @Message("{total} found, worst first")
  String found(String total);

  @Message("Nothing matches these filters.")
  String nothing();

  @Message("Lot")
  String lot();

  @Message("Crop")
  String crop();

  @Message("Id")
  String idColumn();

  @Message("Why")
  String why();

  @Message("Seed")
  String seed();

  @Message("In store")
  String left();

  @Message("Judged on")
  String judged();
}
