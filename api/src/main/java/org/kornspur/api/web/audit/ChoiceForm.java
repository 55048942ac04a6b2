package org.kornspur.api.web.audit;

import java.security.SecureRandom;
import java.util.List;
import java.util.Optional;
import org.kornspur.api.command.audit.LotChoice;
import org.kornspur.api.command.audit.SampleDraw;
import org.kornspur.api.http.Parameters;

/** The choice of lots as a form sends it. */
record ChoiceForm(String ids, String cropYear, String holder, String sample, String seed) {
  private static final int LONGEST_LIST = 12_000;
  private static final int SEEDS = 1_000_000;
  private static final SecureRandom RANDOM = new SecureRandom();

  /** A seed that nobody chose, for who does not choose one. */
  static String freshSeed() {
    return String.valueOf(RANDOM.nextInt(SEEDS));
  }

  LotChoice read(Parameters parameters) {
    List<String> named =
        parameters.text("ids", ids, LONGEST_LIST).map(LotChoice::ids).orElse(List.of());
    Optional<Integer> year = parameters.whole("cropYear", cropYear, 1990, 2100);
    Optional<String> grower = parameters.id("holder", holder);
    Optional<Integer> size = parameters.whole("sample", sample, 1, LotChoice.MOST_LOTS);
    Optional<String> drawnBy = parameters.id("seed", seed).map(String::strip);
    parameters.check();
    return new LotChoice(
        named,
        year,
        grower,
        size.map(lots -> new SampleDraw(lots, drawnBy.orElseGet(ChoiceForm::freshSeed))));
  }
}
