package org.kornspur.api.export.paper;

import org.kornspur.api.query.RequestWords;
import org.kornspur.api.query.view.AsOf;
import org.kornspur.api.text.DomainTerms;
import org.kornspur.api.text.Language;
import org.kornspur.api.text.LocalFormat;

/**
 * What a paper is written with.
 *
 * @param form writes dates, numbers and units
 * @param trade words of the trade
 * @param asOf one sentence on how fresh the data is
 */
public record PaperFrame(Language language, LocalFormat form, DomainTerms trade, String asOf) {

  static PaperFrame of(RequestWords words, AsOf asOf) {
    return new PaperFrame(words.language(), words.form(), words.terms(), words.freshness(asOf));
  }
}
